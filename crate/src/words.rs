//! Words of the trade that follow the plan's units, as lengths do: inch plans say *rabbet* and *baseboard*, metric
//! plans *rebate* and *skirting*.
//!
//! Sentences are written with the words of inches and go through here before names and figures of the plan are put in.
//!
//! ```
//! use overmantel::{plan::System, words::in_units};
//! assert_eq!(in_units("The rabbet is too shallow.", System::Inches), "The rabbet is too shallow.");
//! assert_eq!(in_units("The rabbet is too shallow.", System::Centimetres), "The rebate is too shallow.");
//! assert_eq!(in_units("height of the baseboard (skirting)", System::Centimetres), "height of the skirting");
//! ```

use crate::plan::System;
use std::borrow::Cow;

/// The word of each system, inches first.
const PAIRS: [(&str, &str); 4] =
    [("rabbet", "rebate"), ("Rabbet", "Rebate"), ("baseboard", "skirting"), ("Baseboard", "Skirting")];

/// A sentence of ours in the words of a system. "rabbet (rebate)", as labels without a plan say it, becomes one word.
#[must_use]
pub fn in_units(sentence: &str, system: System) -> Cow<'_, str> {
    let mut said = Cow::Borrowed(sentence);
    for (inches, metric) in PAIRS {
        if !said.contains(inches) {
            continue;
        }
        let both = [inches, " (", metric, ")"].concat();
        let one = said.replace(&both, inches);
        said = Cow::Owned(match system {
            System::Inches => one,
            System::Centimetres => one.replace(inches, metric),
        });
    }
    said
}

/// A thing's name in a sentence: `a sofa`, `an armchair`. A name that begins with a capital or brings its article stays as it is.
///
/// ```
/// use overmantel::words::with_article;
/// let all = ["light switch", "open shelf", "Grandmother’s chair", "the long bench"].map(with_article);
/// assert_eq!(all, ["a light switch", "an open shelf", "Grandmother’s chair", "the long bench"]);
/// ```
#[must_use]
pub fn with_article(name: &str) -> String {
    let has_own = ["a ", "an ", "the ", "my ", "our "].iter().any(|own| name.starts_with(own));
    if has_own || !name.starts_with(|first: char| first.is_lowercase()) {
        return name.to_owned();
    }
    let article = if name.starts_with(['a', 'e', 'i', 'o', 'u']) { "an " } else { "a " };
    [article, name].concat()
}
