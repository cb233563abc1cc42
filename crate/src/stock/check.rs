//! Whether a stock holds together: ranges and names, row by row.

use super::thresholds::AmountError;
use super::{Stock, limits, rows::Listed};
use crate::described::{Choosable, Fault, FileError, Row, fault};
use crate::length::{Length, print::exact};
use crate::plan::Material;
use crate::quoted::short;
use std::fmt;

/// Why a text is not read as a stock.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum StockError {
    /// It is no file of this form.
    File(#[from] FileError),
    /// A list of a file has more rows than a list takes.
    Long {
        /// The list.
        list: &'static str,
        /// Whether they are to replace what is on offer, or to be added.
        how: &'static str,
    },
    /// A list would have so many rows, which is more than it takes.
    Rows {
        /// The list.
        list: &'static str,
        /// How many there would be.
        given: usize,
    },
    /// Two rows of a list have one name.
    Twice {
        /// The list.
        list: &'static str,
        /// Their name.
        name: String,
    },
    /// The name of a row, by its number from one, is none.
    Name {
        /// The list.
        list: &'static str,
        /// Which row.
        row: usize,
        /// What is wrong with the name.
        fault: Fault,
    },
    /// Something is wrong with a row.
    Row {
        /// The list.
        list: &'static str,
        /// What the row is called.
        name: String,
        /// What is wrong with it.
        fault: RowFault,
    },
    /// A material has no density.
    NoDensity(Material),
    /// There is no limit of this name.
    NoThreshold(String),
    /// A limit can't be at this amount.
    Threshold {
        /// The limit.
        name: String,
        /// Why not.
        why: AmountError,
    },
}

/// What is wrong with a row of a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RowFault {
    /// A member is out of its range.
    Range(&'static Row, Fault),
    /// The margins of a roll take all of it.
    Margins {
        /// Each margin.
        margin: Length,
        /// The roll.
        width: Length,
    },
    /// A lip is wider than its moulding's face.
    Lip {
        /// The rabbet's width.
        rabbet: Length,
        /// The face's width.
        face: Length,
    },
    /// A rabbet is deeper than its moulding.
    Deep {
        /// The rabbet's depth.
        rabbet: Length,
        /// The moulding's depth.
        depth: Length,
    },
    /// A floater frame has a rabbet.
    Floater,
    /// The trim of a stick takes all of it.
    Trim {
        /// The trim.
        trim: Length,
        /// The stick.
        length: Length,
    },
    /// A density is not between its least and its most.
    Order {
        /// The density.
        kg_per_m3: u32,
        /// Its least.
        least: u32,
        /// Its most.
        most: u32,
    },
}

impl fmt::Display for StockError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let most = limits::ROWS;
        match self {
            Self::File(why) => why.fmt(f),
            Self::Long { list, how } => {
                write!(f, "the stock file can't be read: {list}, {how}: a list takes at most {most} rows")
            }
            Self::Rows { list, given } => {
                write!(
                    f,
                    "{list}: there would be {given} rows, and a list takes at most {most}; leave some out"
                )
            }
            Self::Twice { list, name } => {
                write!(f, "{list}: two rows are called \"{}\"; give each a name of its own", short(name))
            }
            Self::Name { list, row, fault } => write!(f, "{list}, row {row}: the name {fault}"),
            Self::Row { list, name, fault } => write!(f, "{list}, \"{}\": {fault}", short(name)),
            Self::NoDensity(material) => write!(
                f,
                "the densities have no row for {}; give one for every material, or use \"add\" to change single rows",
                material.name()
            ),
            Self::NoThreshold(name) => write!(
                f,
                "thresholds, \"{}\": there is no limit of this name; save the stock list to see all of them",
                short(name)
            ),
            Self::Threshold { name, why } => write!(f, "thresholds, \"{}\": {why}", short(name)),
        }
    }
}

impl fmt::Display for RowFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Range(row, fault) => write!(f, "the {} {fault}", row.label),
            Self::Margins { margin, width } => write!(
                f,
                "two margins of {} leave nothing of a width of {}; write a narrower margin",
                exact(*margin),
                exact(*width)
            ),
            Self::Lip { rabbet, face } => write!(
                f,
                "the rabbet (rebate) is {} wide and the face {}; make the rabbet narrower or the face wider, as the lip is part of the face",
                exact(*rabbet),
                exact(*face)
            ),
            Self::Deep { rabbet, depth } => write!(
                f,
                "the rabbet (rebate) is {} deep and the moulding {}; the rabbet cannot be deeper than the moulding",
                exact(*rabbet),
                exact(*depth)
            ),
            Self::Floater => f.write_str("a floater frame has no rabbet (rebate); leave it out"),
            Self::Trim { trim, length } => write!(
                f,
                "a trim of {} leaves nothing of a length of {}; write a shorter trim",
                exact(*trim),
                exact(*length)
            ),
            Self::Order { kg_per_m3, least, most } => write!(
                f,
                "the density is {kg_per_m3}, the least {least} and the most {most}; put them in order"
            ),
        }
    }
}

/// A list: how many rows, a name of its own for each, and each by its own rules.
pub(super) fn rows<T: Listed>(list: &'static str, rows: &mut [T]) -> Result<(), StockError> {
    if rows.len() > limits::ROWS {
        return Err(StockError::Rows { list, given: rows.len() });
    }
    for index in 0..rows.len() {
        let (before, rest) = rows.split_at_mut(index);
        let row = &mut rest[0];
        let range = fault(row);
        let name = row.called().to_owned();
        match range {
            Some((of, fault)) if of.key == "name" => {
                return Err(StockError::Name { list, row: index + 1, fault });
            }
            _ if before.iter().any(|known| known.called() == name) => {
                return Err(StockError::Twice { list, name });
            }
            _ => {}
        }
        let fault = range.map(|(of, fault)| RowFault::Range(of, fault)).or_else(|| row.wrong());
        if let Some(fault) = fault {
            return Err(StockError::Row { list, name, fault });
        }
    }
    Ok(())
}

/// Every material has a density.
pub(super) fn densities(stock: &Stock) -> Result<(), StockError> {
    let lacking =
        Material::all().find(|material| !stock.densities.iter().any(|row| row.material == *material));
    lacking.map_or(Ok(()), |material| Err(StockError::NoDensity(material)))
}
