//! Puts the parts into the template, under a content security policy that lets nothing else run and nothing out.
//!
//! The template marks the places with comments, each once: `<!--[policy]-->` at the top of the head,
//! `<!--[style]-->` after it, and `<!--[demo]-->`, `<!--[script]-->` and `<!--[core]-->` at the end of the body in
//! this order: the script runs when the browser reaches it and finds the demo's plans by then, and it takes the core in parts, each
//! as soon as it has been read. Before it are the pictures that the page opens on, between what the first drawing takes of it and the
//! rest all others.
//!
//! The core is deflated inside the page: a file from a disk or a mail has no compression in transit.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};

use crate::demo::PictureBlocks;
use crate::{Failure, Outcome};

/// Bytes of the deflated core in a part: their number is one of threes, which base64 needs no padding for.
const PART_BYTES: usize = 48 * 1024;

/// What the page is made of.
#[derive(Debug)]
pub struct Parts<'a> {
    /// The HTML with its marks.
    pub template: &'a str,
    /// The one style sheet.
    pub style: &'a str,
    /// The one script.
    pub script: &'a str,
    /// The core's first part, deflated ([`crate::deflate`]).
    pub core: &'a [u8],
    /// The rest of the core, likewise.
    pub rest: &'a [u8],
    /// The data blocks of the demo's plans.
    pub demo: &'a str,
    /// Those of its pictures.
    pub pictures: &'a PictureBlocks,
}

/// The whole page.
///
/// # Errors
/// When a mark is missing or doubled, when a part would end its own element, or when something is not ASCII.
pub fn assemble(parts: &Parts<'_>) -> Outcome<String> {
    let style = element_content(parts.style, "style")?;
    let script = element_content(parts.script, "script")?;
    let fillings = [
        ("policy", policy(&single_policy(script, style), "")),
        ("style", format!("<style>{style}</style>")),
        ("demo", parts.demo.trim_end().to_owned()),
        ("script", format!("<script>{script}</script>")),
        (
            "core",
            [
                parts.pictures.first.trim_end(),
                &in_parts(parts.core, "core"),
                parts.pictures.others.trim_end(),
                &in_parts(parts.rest, "rest"),
            ]
            .join("\n"),
        ),
    ];
    filled(parts.template, &fillings)
}

/// The template with its marks filled.
pub(crate) fn filled(template: &str, fillings: &[(&str, String)]) -> Outcome<String> {
    let page = fill(template, fillings)?;
    match page.chars().find(|c| !c.is_ascii()) {
        None => Ok(page),
        Some(c) => Err(Failure::new(format!(
            "The page contains {c:?}; write it as an entity or an escape: with it, a browser holds all of the page in 16 bits a letter, and starts later."
        ))),
    }
}

/// The core, or its rest, as data blocks, each of which says how many they are.
fn in_parts(core: &[u8], class: &str) -> String {
    let parts = core.chunks(PART_BYTES);
    let count = parts.len();
    let block = |part| {
        let text = STANDARD.encode(part);
        format!(
            r#"<script type="application/wasm;base64" class="{class}" data-parts="{count}">{text}</script>"#
        )
    };
    parts.map(block).collect::<Vec<_>>().join("\n")
}

/// The element with a policy, and with other attributes behind it.
pub(crate) fn policy(content: &str, attributes: &str) -> String {
    format!("<meta http-equiv=\"Content-Security-Policy\" content=\"{content}\"{attributes}>")
}

/// The policy of the page that is one file: only this script, only this style, pictures only from memory, and no connection to anywhere.
pub(crate) fn single_policy(script: &str, style: &str) -> String {
    let script = hash(script);
    let style = hash(style);
    format!(
        "default-src 'none'; \
         script-src {script} 'wasm-unsafe-eval'; style-src {style}; img-src blob: data:; connect-src 'none'; \
         base-uri 'none'; form-action 'none'; require-trusted-types-for 'script'; trusted-types 'none'"
    )
}

/// The source expression that allows an element with exactly this content.
fn hash(content: &str) -> String {
    format!("'sha256-{}'", STANDARD.encode(Sha256::digest(content)))
}

/// Content that can stand in an element of this name: nothing in it ends the element or makes the browser read on
/// beyond its end, which `<!--` does in a script.
pub(crate) fn element_content<'a>(content: &'a str, element: &str) -> Outcome<&'a str> {
    let lower_case = content.to_ascii_lowercase();
    let forbidden = [format!("</{element}"), "<!--".to_owned()];
    match forbidden.iter().find(|text| lower_case.contains(text.as_str())) {
        Some(text) => {
            Err(Failure::new(format!("The page's {element} contains {text}, which would end it too early.")))
        }
        None if content.contains('\r') => {
            Err(Failure::new(format!("The page's {element} has a carriage return, which browsers replace.")))
        }
        None => Ok(content),
    }
}

/// Replaces each mark, in the order given. The fillings are not searched for marks.
fn fill(template: &str, fillings: &[(&str, String)]) -> Outcome<String> {
    let mut page = String::new();
    let mut rest = template;
    for (name, filling) in fillings {
        let mark = format!("<!--[{name}]-->");
        if template.matches(&mark).count() != 1 {
            return Err(Failure::new(format!("www/index.html must contain {mark} exactly once.")));
        }
        let (before, after) = rest
            .split_once(&mark)
            .ok_or_else(|| Failure::new(format!("{mark} stands too early in www/index.html.")))?;
        page.push_str(before);
        page.push_str(filling);
        rest = after;
    }
    page.push_str(rest);
    Ok(page)
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEMPLATE: &str =
        "<!doctype html><!--[policy]--><!--[style]--><main></main><!--[demo]--><!--[script]--><!--[core]-->";

    static NO_PICTURES: PictureBlocks = PictureBlocks { first: String::new(), others: String::new() };

    fn parts<'a>(template: &'a str, script: &'a str) -> Parts<'a> {
        Parts {
            template,
            style: "p{margin:0}",
            script,
            core: b"\0asm",
            rest: b"\0asm",
            demo: "",
            pictures: &NO_PICTURES,
        }
    }

    #[test]
    fn the_policy_allows_the_very_bytes_between_the_tags() {
        let page = assemble(&parts(TEMPLATE, "let a=1;")).expect("the template is whole");
        // From: printf 'let a=1;' | openssl dgst -sha256 -binary | base64
        assert!(
            page.contains(
                "script-src 'sha256-gzFfZBIOk0YYiNwv7EJGnTMpkU7Qc/ffONYxBxCjmDA=' 'wasm-unsafe-eval'"
            ),
            "{page}"
        );
        // From: printf 'p{margin:0}' | openssl dgst -sha256 -binary | base64
        assert!(page.contains("style-src 'sha256-QRQPRLGyxt3RJiKpYNjpkgHcmHU2PywsfL2e8oI0LQA='"), "{page}");
        assert!(page.contains("<script>let a=1;</script>"), "{page}");
        let policy = page.find("Content-Security-Policy").expect("a policy");
        assert!(policy < page.find("<style>").expect("a style"), "the policy comes first");
    }

    #[test]
    fn the_core_is_carried_whole() {
        let core: Vec<u8> = (0..250).cycle().take(PART_BYTES * 2 + 5).collect();
        let page = assemble(&Parts { core: &core, ..parts(TEMPLATE, "") }).expect("the template is whole");
        let blocks = page.split("class=\"core\" data-parts=\"3\">").skip(1);
        let texts: Vec<_> = blocks.map(|block| block.split_once('<').expect("an end").0).collect();
        assert_eq!(texts.len(), 3);
        assert_eq!(STANDARD.decode(texts.concat()).expect("base64"), core);
    }

    #[test]
    fn a_script_that_would_end_its_element_is_refused() {
        for script in ["'</SCRIPT>'", "'<!--'", "a\r\nb"] {
            assert!(assemble(&parts(TEMPLATE, script)).is_err(), "{script:?}");
        }
    }

    #[test]
    fn what_is_not_ascii_is_refused() {
        let failure = assemble(&parts(TEMPLATE, "'…'")).expect_err("an ellipsis");
        assert!(failure.to_string().contains("contains '…'"), "{failure}");
    }

    #[test]
    fn a_mark_missing_doubled_or_too_early_is_named() {
        let check = |template: &str, expected: &str| {
            let failure = assemble(&parts(template, "")).expect_err("the template is wrong");
            assert!(failure.to_string().contains(expected), "{failure}");
        };
        check(&TEMPLATE.replace("<!--[demo]-->", ""), "<!--[demo]--> exactly once");
        check(&TEMPLATE.replace("<!--[core]-->", "<!--[core]--><!--[core]-->"), "<!--[core]--> exactly once");
        check(
            "<!--[style]--><!--[policy]--><!--[demo]--><!--[script]--><!--[core]-->",
            "<!--[style]--> stands too early",
        );
    }
}
