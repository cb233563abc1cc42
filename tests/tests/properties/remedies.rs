//! Remedies of any plan: each, taken, removes its finding and brings none that matters more.

use super::any_plan::any_plan;
use overmantel::desk::Desk;
use overmantel::figures::Figures;
use overmantel::findings::{Finding, findings};
use overmantel::mend;
use overmantel::plan::{Focus, Picture, Plan};
use overmantel::stock::Stock;
use overmantel_tests::given;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;

fn found(plan: &Plan, stock: &Stock) -> Result<Vec<Finding>, TestCaseError> {
    let figures = Figures::of(plan).map_err(|why| TestCaseError::fail(why.to_string()))?;
    Ok(findings(plan, &figures, stock))
}

fn is_same(one: &Finding, other: &Finding) -> bool {
    (one.code, &one.subject) == (other.code, &other.subject)
}

/// What a user does who means no harm; what a plan does not take is left out.
const EDITS: [(&str, &[&str]); 30] = [
    ("pieces.count", &["one", "two"]),
    ("piece.all.image", &["8 x 10", "20 x 30", "24 x 36", "40 x 60", "50 x 70"]),
    ("piece.1.image", &["15 1/2 x 20", "12 x 12"]),
    ("piece.all.material", &["canvas", "aluminium", "the original"]),
    ("piece.0.material", &["canvas", "the original"]),
    ("piece.all.mat", &["without", "with"]),
    ("piece.all.mat.border", &["1", "4"]),
    ("piece.all.mat.foot", &["-1/2", "1/8", "1"]),
    ("piece.all.mat.opening", &["showing its white border by", "floating it with a gap of"]),
    ("piece.all.mat.by", &["1/16", "3/8"]),
    ("piece.all.paper.border", &["1/2", "1"]),
    ("piece.all.glazing", &["acrylic", "no glazing"]),
    ("piece.all.glazing.thickness", &["1/8", "1/4"]),
    ("piece.all.mount", &["hardboard", "no mount board"]),
    ("piece.all.frame", &["with", "without"]),
    ("piece.1.frame.face", &["1 1/2"]),
    ("piece.all.frame.rabbet_depth", &["3/8", "1 1/4"]),
    ("piece.all.frame.allowance", &["1/16", "1/2"]),
    ("piece.all.canvas.edge", &["the image wrapped round the edge", "a solid edge"]),
    ("shared", &["all in one frame"]),
    ("group.gap", &["1/2", "1", "6", "12"]),
    ("group.clearance", &["1", "12", "40"]),
    ("group.up", &["centred at eye level"]),
    ("group.left", &["0", "2", "30"]),
    ("wall.height", &["70", "84"]),
    ("fixture.0.kind", &["bed", "sideboard", "radiator", "door"]),
    ("fixture.0.width", &["40", "120"]),
    ("fixtures.add", &["light switch", "window", "door", "radiator"]),
    ("fixing.kind", &["a wire over one hook", "a wire over two hooks"]),
    ("fixing.slack", &["1/8", "3"]),
];

const SITE: [(&str, &[&str]); 8] = [
    ("site.way", &["in a public corridor"]),
    ("site.wall", &["of plasterboard"]),
    ("site.ground", &["in an earthquake area"]),
    ("site.opposite", &["a window opposite"]),
    ("site.cornice", &["6", "20"]),
    ("site.rated", &["rated for 10 lb"]),
    (
        "site.signature",
        &["signed below the image, in a space of", "signed in the picture, at a distance from its edge of"],
    ),
    ("site.door", &["a door of"]),
];

/// Plans as people make them: the starting plan with some edits.
pub(crate) fn usual_plan() -> impl Strategy<Value = Plan> {
    let edits: Vec<(&str, &str)> = EDITS
        .iter()
        .chain(&SITE)
        .flat_map(|(field, texts)| texts.iter().map(|text| (*field, *text)))
        .collect();
    let px = (select(vec![800_u32, 2400, 6000]), select(vec![1000_u32, 3000, 4000]));
    (vec(select(edits), 1..10), proptest::option::of(px)).prop_map(|(edits, px)| {
        let mut plan = Plan::starting();
        if let Some((width_px, height_px)) = px {
            let (name, file) = ("Ebb".to_owned(), "ebb.jpg".to_owned());
            plan.pictures.push(Picture {
                name,
                file,
                width_px,
                height_px,
                subject: Some(Focus { x_permille: 100, y_permille: 500 }),
            });
            plan.pieces.iter_mut().for_each(|piece| piece.picture = Some(0));
        }
        edits.iter().fold(plan, |plan, (field, text)| {
            given::write(&plan, &Stock::offered(), field, text).unwrap_or(plan)
        })
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn a_remedy_removes_its_finding_and_brings_no_worse_one(plan in prop_oneof![any_plan().boxed(), usual_plan().boxed()]) {
        let stock = Stock::offered();
        let Ok(figures) = Figures::of(&plan) else { return Ok(()) };
        let before = findings(&plan, &figures, &stock);
        let offered = mend::findings(&plan, &figures, &stock);
        prop_assert_eq!(offered.len(), before.len());
        for finding in &offered {
            prop_assert!(finding.sentence.ends_with('.'), "{}", finding.sentence);
            for remedy in &finding.remedies {
                let mut desk = Desk::new(plan.clone()).map_err(|why| TestCaseError::fail(why.to_string()))?;
                let mended = mend::with(&plan, &stock, remedy).map_err(|why| TestCaseError::fail(why.to_string()))?;
                // By its identity it is this one, whatever words others have.
                prop_assert_eq!(desk.mend(&remedy.id), Ok(()), "{}", &remedy.id);
                prop_assert_eq!(desk.plan(), &mended, "{}", &remedy.id);
                if mended != plan {
                    prop_assert!(desk.undo());
                }
                prop_assert_eq!(desk.plan(), &plan);
                for left in found(&mended, &stock)? {
                    prop_assert!(!is_same(&left, finding), "{}: \"{}\" leaves {:?}", finding.code, remedy.words, left);
                    let is_new = !before.iter().any(|known| is_same(known, &left));
                    prop_assert!(
                        !is_new || left.severity <= finding.severity,
                        "{}: \"{}\" brings {:?}", finding.code, remedy.words, left
                    );
                }
            }
        }
    }
}
