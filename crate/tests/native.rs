//! Drawings have the same bytes natively and in wasm: the native half.
#![cfg(not(target_arch = "wasm32"))]

mod drawings;

#[test]
fn drawings_have_the_bytes_that_they_have_in_wasm() {
    let found: Vec<(&str, u64)> =
        drawings::CASES.iter().map(|case| (case.name, drawings::hash(case))).collect();
    if std::env::var_os("BLESS").is_some() {
        panic!("new hashes, to be written into drawings/mod.rs: {found:#x?}");
    }
    let expected: Vec<(&str, u64)> = drawings::CASES.iter().map(|case| (case.name, case.hash)).collect();
    assert_eq!(found, expected);
}

#[test]
fn papers_have_the_bytes_that_they_have_in_wasm() {
    let found = drawings::PAPERS.map(|(name, plan, _)| (name, drawings::papers_hash(plan)));
    let expected = drawings::PAPERS.map(|(name, _, hash)| (name, hash));
    assert_eq!(found, expected, "{found:#x?}, to be written into drawings/mod.rs after a look at the papers");
}

#[test]
fn likenesses_have_the_bytes_that_they_have_in_wasm() {
    let found = drawings::likenesses_hash();
    assert_eq!(found, drawings::LIKENESSES, "{found:#x?}, to be written into drawings/mod.rs");
}
