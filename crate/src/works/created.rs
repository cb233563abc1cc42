//! When a work was made: dates as ISO 8601 has them, a year alone, to a month or to a day, and from one to another.

use std::fmt;

/// A year, with a month and a day where they are known.
type Day = (u16, Option<u8>, Option<u8>);

/// When a work was made: from a date to a date, which are one and the same for most.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Created {
    /// When it was begun.
    pub from: Day,
    /// When it was done.
    pub until: Day,
}

impl Created {
    /// The year in which it was done.
    #[must_use]
    pub const fn year(self) -> u16 {
        self.until.0
    }

    /// Reads a date: `2023`, `2023-05`, `2023-05-14`, `20230514`, or two with a slash between; a time of day behind a `T` is passed over.
    ///
    /// ```
    /// use overmantel::works::Created;
    /// assert_eq!(Created::read("2019/2021").unwrap().year(), 2021);
    /// assert_eq!(Created::read("2023-05-14T10:30:00+02:00").unwrap().until, (2023, Some(5), Some(14)));
    /// assert_eq!(Created::read("2023-02-29"), None, "2023 was no leap year");
    /// assert_eq!(Created::read("14.05.2023"), None);
    /// ```
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let text = text.trim();
        match text.split_once('/') {
            None => day(text).map(|day| Self { from: day, until: day }),
            Some((from, until)) => {
                let from = day(from)?;
                // 2023-05/07: what is left out on the right is as on the left.
                let short = |part: &str| part.len() == 2 && part.bytes().all(|byte| byte.is_ascii_digit());
                let until = match from {
                    (year, Some(_), None) if short(until) => day(&format!("{year:04}-{until}"))?,
                    (year, Some(month), Some(_)) if short(until) => {
                        day(&format!("{year:04}-{month:02}-{until}"))?
                    }
                    _ => day(until)?,
                };
                (from <= until || from.0 == until.0 && until.1.is_none()).then_some(Self { from, until })
            }
        }
    }
}

fn day(text: &str) -> Option<Day> {
    let date = text.split(['T', 't']).next()?;
    let digits = |part: &str, len: usize| {
        (part.len() == len && part.bytes().all(|byte| byte.is_ascii_digit()))
            .then(|| part.parse::<u16>().ok())?
    };
    let parts: Vec<&str> = match date.len() {
        8 if date.bytes().all(|byte| byte.is_ascii_digit()) => vec![&date[..4], &date[4..6], &date[6..]],
        _ => date.split('-').collect(),
    };
    let (year, rest) = parts.split_first()?;
    let year = digits(year, 4).filter(|year| *year > 0)?;
    let small = |part: &str| digits(part, 2).and_then(|number| u8::try_from(number).ok());
    match *rest {
        [] => Some((year, None, None)),
        [month] => Some((year, Some(small(month).filter(|month| (1..=12).contains(month))?), None)),
        [month, day] => {
            let month = small(month).filter(|month| (1..=12).contains(month))?;
            let day = small(day).filter(|day| (1..=days(year, month)).contains(day))?;
            Some((year, Some(month), Some(day)))
        }
        _ => None,
    }
}

/// Days of a month by the Gregorian calendar.
const fn days(year: u16, month: u8) -> u8 {
    match month {
        4 | 6 | 9 | 11 => 30,
        2 if year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400)) => 29,
        2 => 28,
        _ => 31,
    }
}

fn written(f: &mut fmt::Formatter<'_>, (year, month, day): Day) -> fmt::Result {
    write!(f, "{year:04}")?;
    month.map_or(Ok(()), |month| write!(f, "-{month:02}"))?;
    day.map_or(Ok(()), |day| write!(f, "-{day:02}"))
}

impl fmt::Display for Created {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        written(f, self.from)?;
        if self.until != self.from {
            f.write_str("/")?;
            written(f, self.until)?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 8601-1:2019, 5.2 and 5.5 (from memory): calendar dates in basic and extended form, reduced precision, intervals.
    #[test]
    fn dates_as_the_standard_has_them() {
        for (text, year, back) in [
            ("1985", 1985, "1985"),
            ("1985-04", 1985, "1985-04"),
            ("1985-04-12", 1985, "1985-04-12"),
            ("19850412", 1985, "1985-04-12"),
            ("2000-02-29", 2000, "2000-02-29"),
            ("2018-01/2019-03", 2019, "2018-01/2019-03"),
            ("2018-01/03", 2018, "2018-01/2018-03"),
            ("2018-01-15/22", 2018, "2018-01-15/2018-01-22"),
            ("2019-05/2019", 2019, "2019-05/2019"),
        ] {
            let read = Created::read(text).unwrap_or_else(|| panic!("{text}"));
            assert_eq!((read.year(), read.to_string().as_str()), (year, back), "{text}");
        }
        for text in [
            "",
            "85",
            "1900-02-29",
            "2018-13",
            "2018-1-5",
            "2021/2019",
            "spring 2020",
            "2020-",
            "0000",
            "٢٠٢٠",
        ] {
            assert_eq!(Created::read(text), None, "{text}");
        }
    }
}
