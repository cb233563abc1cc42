//! The price book as a file: JSON, amounts as text such as `"12.50"`, lengths as text with their unit.
//!
//! Version 1. A field that this version does not know is refused. The JSON Schema of the form is derived from the structs of this
//! module (`schema/prices.schema.json`).

use super::{Book, By, Part, PriceRow, Tax, limits};
use crate::geometry::Size;
use crate::json;
use crate::length::{Length, Unit, parse::parse};
use serde::{Deserialize, Serialize};

/// The version this module reads.
pub const VERSION: u32 = 1;

/// A price book of Overmantel: a maker's own prices.
#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(title = "Overmantel price book"))]
#[serde(deny_unknown_fields)]
struct BookForm {
    /// Version of the form: 1.
    #[cfg_attr(feature = "schema", schemars(range(min = 1, max = 1)))]
    overmantel_prices: u32,
    /// What it is called.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 80)))]
    name: String,
    /// It is an example that nobody sells by.
    #[serde(default)]
    example: bool,
    /// The currency, as it is written before an amount.
    #[cfg_attr(feature = "schema", schemars(length(min = 1, max = 8)))]
    currency: String,
    /// The tax, where it is shown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    tax: Option<TaxForm>,
    /// Prices; the first that suits a part counts.
    #[cfg_attr(feature = "schema", schemars(length(max = 400)))]
    rows: Vec<RowForm>,
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct TaxForm {
    /// In percent, with two decimals at the most.
    percent: String,
    /// The prices have it in them.
    #[serde(default)]
    included: bool,
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum PartForm {
    Paper,
    Canvas,
    Aluminium,
    EdgeCarried,
    EdgeMirrored,
    EdgePlain,
    Mat,
    Frame,
    Floater,
    Glass,
    Acrylic,
    Mount,
    Backing,
    Handling,
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct RowForm {
    /// For which part.
    #[serde(rename = "for")]
    part: PartForm,
    /// Only for the moulding of this name in the stock, or for this material.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    only: Option<String>,
    /// How it is reckoned.
    by: ByForm,
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
enum ByForm {
    /// For each piece.
    Each(String),
    /// By the very size, either way round.
    Size(Vec<SizeForm>),
    /// By the area.
    SquareFoot(String),
    /// By the area.
    SquareMetre(String),
    /// By width and height together.
    UnitedInch(String),
    /// By width and height together.
    UnitedCentimetre(String),
    /// By steps of width and height together.
    Steps(Vec<StepForm>),
    /// By the length of moulding.
    Foot(String),
    /// By the length of moulding.
    Metre(String),
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct SizeForm {
    /// Width and height, as text with their unit.
    size: [String; 2],
    /// The price of it.
    price: String,
}

#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
struct StepForm {
    /// The largest width and height together, as text with its unit.
    up_to: String,
    /// The price up to there.
    price: String,
}

/// Reads a price book.
///
/// # Errors
/// A plain sentence when the text is too long, is not JSON, has a field or value of the wrong form, is of a later version, or states
/// an amount or a size that is out of range.
pub fn read(text: &str) -> Result<Book, String> {
    if text.len() > limits::FILE_BYTES {
        return Err(format!(
            "the price book has {} bytes; a price book has at most {}",
            text.len(),
            limits::FILE_BYTES
        ));
    }
    #[derive(Deserialize)]
    struct Version {
        overmantel_prices: u32,
    }
    let Version { overmantel_prices } =
        json::read(text).map_err(|why| format!("this is not an Overmantel price book: {why}"))?;
    if overmantel_prices != VERSION {
        return Err(format!(
            "the price book is of version {overmantel_prices}; this program reads version {VERSION}, so open it with a newer one"
        ));
    }
    let form: BookForm = json::read(text).map_err(|why| format!("the price book can't be read: {why}"))?;
    if form.rows.len() > limits::ROWS {
        return Err(format!(
            "the price book has {} rows; it takes at most {}",
            form.rows.len(),
            limits::ROWS
        ));
    }
    let tax = form.tax.map(|tax| {
        let points = hundredths("the tax", &tax.percent)?;
        let basis_points = u32::try_from(points).ok().filter(|points| *points <= 10_000);
        let basis_points = basis_points.ok_or("the tax is more than 100 percent; write the percent alone")?;
        Ok::<_, String>(Tax { basis_points, is_included: tax.included })
    });
    let rows =
        form.rows.into_iter().enumerate().map(|(index, form)| {
            row(form).map_err(|why| format!("the price book, row {}: {why}", index + 1))
        });
    Ok(Book {
        name: plain("the name", form.name)?,
        is_example: form.example,
        currency: plain("the currency", form.currency)?,
        tax: tax.transpose()?,
        rows: rows.collect::<Result<Vec<_>, String>>()?,
    })
}

fn plain(what: &str, text: String) -> Result<String, String> {
    let length = text.chars().count();
    if text.trim().is_empty() || length > limits::NAME || text.chars().any(char::is_control) {
        return Err(format!(
            "{what} of the price book has {length} characters; write 1 to {} on one line",
            limits::NAME
        ));
    }
    Ok(text)
}

/// An amount as it is written, `12` or `12.50`, in hundredths.
fn hundredths(what: &str, text: &str) -> Result<i64, String> {
    let (whole, decimals) = text.trim().split_once('.').unwrap_or((text.trim(), ""));
    let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    let is_number = !whole.is_empty() && digits(whole) && digits(decimals) && decimals.len() <= 2;
    let padded = format!("{whole}{decimals:0<2}");
    let amount = padded.parse::<i64>().ok().filter(|amount| is_number && *amount <= limits::AMOUNT);
    amount.ok_or_else(|| format!("{what} is \"{text}\"; write an amount such as 12 or 12.50"))
}

fn length(text: &str) -> Result<Length, String> {
    let length = parse(text, Unit::Inch).map_err(|why| why.to_string())?;
    if length > Length::ZERO && length <= crate::plan::limits::PIECE * 2 {
        return Ok(length);
    }
    Err(format!("the length {text} is out of range; write one of more than nothing and up to 20 m"))
}

fn row(form: RowForm) -> Result<PriceRow, String> {
    let amount = |text: &str| hundredths("the price", text);
    let few = |count: usize| {
        if count <= limits::ROWS {
            Ok(())
        } else {
            Err(format!("there are {count} prices; it takes at most {}", limits::ROWS))
        }
    };
    Ok(PriceRow {
        part: Part::ALL[form.part as usize],
        only: form.only.map(|only| plain("a name", only)).transpose()?,
        by: match form.by {
            ByForm::Each(price) => By::Each(amount(&price)?),
            ByForm::Size(sizes) => {
                few(sizes.len())?;
                let size = |form: SizeForm| {
                    let [width, height] = &form.size;
                    Ok((Size::new(length(width)?, length(height)?), amount(&form.price)?))
                };
                By::Size(sizes.into_iter().map(size).collect::<Result<Vec<_>, String>>()?)
            }
            ByForm::SquareFoot(price) => By::Area(Unit::Foot, amount(&price)?),
            ByForm::SquareMetre(price) => By::Area(Unit::Metre, amount(&price)?),
            ByForm::UnitedInch(price) => By::United(Unit::Inch, amount(&price)?),
            ByForm::UnitedCentimetre(price) => By::United(Unit::Centimetre, amount(&price)?),
            ByForm::Steps(steps) => {
                few(steps.len())?;
                let step = |form: StepForm| Ok((length(&form.up_to)?, amount(&form.price)?));
                let mut steps = steps.into_iter().map(step).collect::<Result<Vec<_>, String>>()?;
                crate::order::sort_by_key(&mut steps, |step| step.0);
                By::Steps(steps)
            }
            ByForm::Foot(price) => By::Moulding(Unit::Foot, amount(&price)?),
            ByForm::Metre(price) => By::Moulding(Unit::Metre, amount(&price)?),
        },
    })
}

/// The JSON Schema (draft 2020-12) of the price book.
#[cfg(feature = "schema")]
#[must_use]
pub fn schema() -> String {
    let schema = schemars::schema_for!(BookForm);
    serde_json::to_string_pretty(&schema).unwrap_or_default() + "\n"
}
