//! Texts as cells of CSV (RFC 4180), which no spreadsheet takes for a formula.

/// A text as a cell: in quotation marks where it needs them.
pub(crate) fn cell(text: &str) -> String {
    let text = as_text(text);
    // Programs divide by semicolons and tabs too, where their language has commas in numbers.
    if text.contains([',', ';', '\t', '"', '\n', '\r']) {
        ["\"", &text.replace('"', "\"\""), "\""].concat()
    } else {
        text
    }
}

/// Whether a spreadsheet takes what begins with a letter for a formula (common practice, no source).
const fn is_formula(letter: char) -> bool {
    matches!(letter, '=' | '+' | '-' | '@' | '\t' | '\r' | '＝' | '＋' | '－' | '＠')
}

/// What a text was before [`cell`] put an apostrophe before its beginning.
pub(crate) fn without_apostrophe(text: &str) -> &str {
    text.strip_prefix('\'').filter(|rest| rest.starts_with(is_formula)).unwrap_or(text)
}

/// A text with an apostrophe before whatever a spreadsheet would take for a formula: at its beginning, and behind anything inside at
/// which a program may divide it, with or without spaces and quotation marks between (common practice, no source).
fn as_text(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    let mut may_begin = true;
    for letter in text.chars() {
        if may_begin && is_formula(letter) {
            safe.push('\'');
        }
        may_begin = match letter {
            ',' | ';' | '|' | '\t' | '\n' | '\r' => true,
            ' ' | '"' | '\u{a0}' => may_begin,
            _ => false,
        };
        safe.push(letter);
    }
    safe
}
