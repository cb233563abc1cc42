//! Files beside a list: which belongs to which work, what their headers add, and where they disagree.

use super::{Created, Key, Works};
use crate::picture_file::PictureFileError;
use crate::picture_header::Header;
use crate::quoted::short;
use std::collections::BTreeMap;
use std::fmt;

/// A file of a folder, with what its header says.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// Its name.
    pub file: String,
    /// Its header, or why that can't be read.
    pub header: Result<Header, PictureFileError>,
}

/// What is to be said of a list and its files.
#[derive(Clone, Debug, PartialEq)]
pub enum Note {
    /// A file can't be read.
    Unread(PictureFileError),
    /// A work's file is not there.
    Missing {
        /// Its row.
        row: usize,
        /// The file.
        file: String,
    },
    /// A file belongs to no work of the list, and was added to it.
    Added(String),
    /// A work names no file; one that is called like its identifier was taken.
    Guessed {
        /// Its row.
        row: usize,
        /// The file.
        file: String,
    },
    /// List and file disagree.
    Differ {
        /// The row.
        row: usize,
        /// What they disagree about.
        about: Key,
        /// What the list says.
        listed: String,
        /// What the file says.
        told: String,
        /// The file.
        file: String,
    },
    /// A work was photographed before it was made.
    PhotographedBefore {
        /// The row.
        row: usize,
        /// When it was made.
        made: String,
        /// When it was photographed.
        photographed: String,
    },
    /// A work has no date; it was photographed then.
    Photographed {
        /// The row.
        row: usize,
        /// When.
        photographed: String,
    },
}

impl fmt::Display for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unread(PictureFileError::NoPicture(file) | PictureFileError::Broken(file)) => write!(
                f,
                "\"{}\" is no picture that can be read, or it is damaged; save it again as JPEG, PNG, WebP or TIFF",
                short(file)
            ),
            Self::Unread(PictureFileError::Heic(file) | PictureFileError::Kind(file)) => write!(
                f,
                "\"{}\" is a kind of picture that is not read; save it as JPEG, PNG, WebP or TIFF",
                short(file)
            ),
            Self::Unread(why) => write!(f, "{why}"),
            Self::Missing { row, file } => write!(
                f,
                "row {row}: the file \"{}\" is not in the folder; check its name, or move it there",
                short(file)
            ),
            Self::Added(file) => {
                write!(
                    f,
                    "\"{}\" is the file of no work in the list, so it was added at its end",
                    short(file)
                )
            }
            Self::Guessed { row, file } => write!(
                f,
                "row {row} names no file, and \"{}\" is called like its identifier, so it was taken; write it under file",
                short(file)
            ),
            Self::Differ { row, about: about @ Key::WidthPx, listed, told, file } => write!(
                f,
                "row {row}, {} and {}: the list has {listed} pixels and \"{}\" has {told}; the file counts, so correct the list or exchange the file",
                about.name(),
                Key::HeightPx.name(),
                short(file)
            ),
            Self::Differ { row, about, listed, told, file } => write!(
                f,
                "row {row}, {}: the list has \"{}\" and the header of \"{}\" has \"{}\"; the list counts, so correct whichever is wrong",
                about.name(),
                short(listed),
                short(file),
                short(told)
            ),
            Self::PhotographedBefore { row, made, photographed } => write!(
                f,
                "row {row}, dateCreated: the list has {}, and the file says it was photographed on {} already; check the date, or the clock of the camera",
                short(made),
                short(photographed)
            ),
            Self::Photographed { row, photographed } => write!(
                f,
                "row {row} has no date; it was photographed on {}, which is not when it was made, so nothing was written",
                short(photographed)
            ),
        }
    }
}

/// Letters that some systems write in two parts, letter and mark, in file names (Unicode, canonical composition of Latin-1): mark, letters, composed.
const COMPOSED: [(char, &str, &str); 7] = [
    ('\u{300}', "aeiou", "àèìòù"),
    ('\u{301}', "aeiouy", "áéíóúý"),
    ('\u{302}', "aeiou", "âêîôû"),
    ('\u{303}', "ano", "ãñõ"),
    ('\u{308}', "aeiouy", "äëïöüÿ"),
    ('\u{30a}', "a", "å"),
    ('\u{327}', "c", "ç"),
];

/// A file's name as it is compared: the last part of its path, in small letters, letters with marks in one part.
#[must_use]
pub fn folded(file: &str) -> String {
    let name = file.rsplit(['/', '\\']).next().unwrap_or(file).trim();
    let mut folded = String::with_capacity(name.len());
    for letter in name.chars().flat_map(char::to_lowercase) {
        let mark = COMPOSED.iter().find(|(mark, ..)| *mark == letter);
        let both = mark.zip(folded.chars().last()).and_then(|((_, letters, composed), last)| {
            letters.chars().zip(composed.chars()).find(|(plain, _)| *plain == last)
        });
        match both {
            Some((_, composed)) => {
                folded.pop();
                folded.push(composed);
            }
            None => folded.push(letter),
        }
    }
    folded
}

/// A name without its ending.
fn stem(folded: &str) -> &str {
    folded.rsplit_once('.').map_or(folded, |(stem, _)| stem)
}

/// What a file's name says as a title, where nothing else does.
fn title_of(file: &str) -> String {
    let name = file.rsplit(['/', '\\']).next().unwrap_or(file);
    name.rsplit_once('.').map_or(name, |(stem, _)| stem).replace(['-', '_'], " ").trim().to_owned()
}

impl Works {
    /// Takes into the list what files say that it leaves out, adds files that it does not have, and tells where they disagree. Of pixels the
    /// file counts, of everything else the list.
    pub fn take_files(&mut self, files: &[Found]) -> Vec<Note> {
        let mut notes = Vec::new();
        let mut by_name: BTreeMap<String, usize> = BTreeMap::new();
        for (place, found) in files.iter().enumerate() {
            by_name.entry(folded(&found.file)).or_insert(place);
        }
        let mut is_taken = vec![false; files.len()];
        for work in 0..self.works.len() {
            let (row, file) = (self.works[work].row, self.works[work].file.clone());
            let place = if file.is_empty() {
                let identifier = folded(&self.works[work].identifier);
                let alike =
                    by_name.iter().find(|(name, _)| !identifier.is_empty() && stem(name) == identifier);
                alike.map(|(_, place)| *place)
            } else {
                by_name.get(&folded(&file)).copied()
            };
            let Some(place) = place else {
                if !file.is_empty() {
                    notes.push(Note::Missing { row, file });
                }
                continue;
            };
            is_taken[place] = true;
            let found = &files[place];
            if file.is_empty() {
                notes.push(Note::Guessed { row, file: found.file.clone() });
                self.set(work, Key::File, &found.file);
            }
            match &found.header {
                Ok(header) => self.take_header(work, header, &found.file, &mut notes),
                Err(why) => notes.push(Note::Unread(why.clone())),
            }
        }
        for (found, _) in files.iter().zip(is_taken).filter(|(_, is_taken)| !is_taken) {
            match &found.header {
                Ok(_) if self.works.len() >= super::limits::WORKS => break,
                Ok(header) => {
                    let work = self.add();
                    self.set(work, Key::File, &found.file);
                    notes.push(Note::Added(found.file.clone()));
                    self.take_header(work, header, &found.file, &mut notes);
                    if self.works[work].title.is_empty() {
                        self.set(work, Key::Title, &title_of(&found.file));
                    }
                }
                Err(why) => notes.push(Note::Unread(why.clone())),
            }
        }
        notes
    }

    fn take_header(&mut self, work: usize, header: &Header, file: &str, notes: &mut Vec<Note>) {
        let row = self.works[work].row;
        let differ = |about, listed: String, told: String| Note::Differ {
            row,
            about,
            listed,
            told,
            file: file.to_owned(),
        };
        let px = |(across, down): (u32, u32)| format!("{across} × {down}");
        if let Some(listed) = self.works[work].px.filter(|listed| *listed != header.px) {
            notes.push(differ(Key::WidthPx, px(listed), px(header.px)));
        }
        if self.works[work].px != Some(header.px) {
            self.set_px(work, header.px);
        }
        for (key, told) in [
            (Key::Title, &header.title),
            (Key::Creator, &header.creator),
            (Key::Identifier, &header.identifier),
        ] {
            let Some(told) = told else { continue };
            let one = &self.works[work];
            let listed = match key {
                Key::Title => &one.title,
                Key::Creator => &one.creator,
                _ => &one.identifier,
            };
            if listed.is_empty() {
                self.set(work, key, told);
            } else if alike(listed) != alike(told) {
                notes.push(differ(key, listed.clone(), told.clone()));
            }
        }
        let told = header.created.as_deref().and_then(Created::read);
        match (self.works[work].created, told) {
            (None, Some(told)) => self.set(work, Key::DateCreated, &told.to_string()),
            (Some(listed), Some(told)) if listed.year() != told.year() => {
                notes.push(differ(Key::DateCreated, listed.to_string(), told.to_string()));
            }
            _ => {}
        }
        let Some((text, photographed)) =
            header.photographed.as_deref().and_then(|text| Some((text, Created::read(text)?)))
        else {
            return;
        };
        match self.works[work].created {
            None => notes.push(Note::Photographed { row, photographed: text.to_owned() }),
            Some(made) if made.from.0 > photographed.year() => {
                let (made, photographed) = (made.to_string(), text.to_owned());
                notes.push(Note::PhotographedBefore { row, made, photographed });
            }
            Some(_) => {}
        }
    }
}

/// A text without what does not make it another: spaces, upper and lower case.
fn alike(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_compared_as_people_read_them() {
        assert_eq!(folded("pictures/Watt in der Da\u{308}mmerung.JPG"), folded("watt in der dämmerung.jpg"));
        assert_eq!(folded("C:\\work\\Ebb.tif"), "ebb.tif");
        assert_ne!(folded("ebb.tif"), folded("ebb.jpg"));
        assert_eq!(title_of("two-boats_at-ebb.jpg"), "two boats at ebb");
    }
}
