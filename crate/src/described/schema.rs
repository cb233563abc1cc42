//! The JSON Schema (draft 2020-12) of a thing in a file, by its rows.

use super::left_out::{Following, LeftOut};
use super::{Absent, Entry, Form, Format, Member, OneOf, Row, Slot, Thing, are_one_value, bare};
use crate::json::Node;

type Entries = Vec<(String, Node)>;

/// The schema of a thing, with `first` before its own members, and `last` (a definition, a key and its schema) behind those of a part.
#[must_use]
pub(crate) fn schema(
    thing: &mut dyn Thing,
    title: &str,
    first: (&str, Node),
    (part, key, last): (&str, &str, Node),
) -> String {
    let mut defs = Defs::default();
    let root = defs.root(thing, title, first);
    let part = defs.listed.iter_mut().find(|(name, _)| name == part);
    if let Some((_, Node::Group(body))) = part
        && let Some((_, Node::Group(properties))) = body.iter_mut().find(|(key, _)| key == "properties")
    {
        properties.push((key.to_owned(), last));
    }
    defs.text(root)
}

/// The schema of a thing, with the version by its key before its own members, and `last` behind them.
#[must_use]
pub(crate) fn schema_of_list(
    thing: &mut dyn Thing,
    title: &str,
    format: &Format,
    last: Option<(&str, Node)>,
    lengths: Lengths,
) -> String {
    let (key, number) = (format.key, Node::Whole(format.version.into()));
    let version = entries(&[
        (
            "description",
            Node::Text(["Version of the file format: ", &format.version.to_string(), "."].concat()),
        ),
        ("type", Node::text("integer")),
        ("format", Node::text("uint32")),
        ("minimum", number.clone()),
        ("maximum", number),
    ]);
    let mut defs = Defs { lengths, ..Defs::default() };
    let mut root = defs.root(thing, title, (key, Node::Group(version)));
    if let (Some((key, last)), Some((_, Node::Group(properties)))) =
        (last, root.iter_mut().find(|(key, _)| key == "properties"))
    {
        properties.push((key.to_owned(), last));
    }
    defs.text(root)
}

/// How a schema has lengths.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) enum Lengths {
    /// As a definition of their own.
    #[default]
    Defined,
    /// As any text.
    Texts,
}

/// A group by its keys.
pub(crate) fn entries(of: &[(&str, Node)]) -> Entries {
    of.iter().map(|(key, node)| ((*key).to_owned(), node.clone())).collect()
}

/// What is defined once and referred to, in the order in which it is met.
#[derive(Default)]
struct Defs {
    listed: Entries,
    lengths: Lengths,
    /// What follows from what else is stated of the thing that it belongs to.
    following: Vec<Following>,
}

impl Defs {
    /// What comes before the definitions.
    fn root(&mut self, thing: &mut dyn Thing, title: &str, first: (&str, Node)) -> Entries {
        let (_, about) = thing.title();
        let mut root = entries(&[("$schema", Node::text("https://json-schema.org/draft/2020-12/schema"))]);
        root.push(("title".to_owned(), Node::text(title)));
        root.push(("description".to_owned(), Node::text(about)));
        let (mut properties, mut required) = (vec![(first.0.to_owned(), first.1)], vec![Node::text(first.0)]);
        self.members(thing, &mut properties, &mut required);
        root.extend(object(properties, required));
        root
    }

    /// All of it as text.
    fn text(self, mut root: Entries) -> String {
        root.push(("$defs".to_owned(), Node::Group(self.listed)));
        Node::Group(root).pretty() + "\n"
    }

    /// A reference to a definition, which `define` gives when it is met first.
    fn refer(&mut self, name: &str, define: impl FnOnce(&mut Self) -> Entries) -> Entries {
        if !self.listed.iter().any(|(known, _)| known == name) {
            let place = self.listed.len();
            self.listed.push((name.to_owned(), Node::Null));
            let defined = define(self);
            self.listed[place].1 = Node::Group(defined);
        }
        entries(&[("$ref", Node::text(["#/$defs/", name].concat()))])
    }

    fn length(&mut self) -> Entries {
        if self.lengths == Lengths::Texts {
            return entries(&[("type", Node::text("string"))]);
        }
        self.refer("Text", |_| {
            entries(&[
                ("description", Node::text("A length as text with its unit.")),
                ("type", Node::text("string")),
                ("minLength", Node::Whole(1)),
                ("maxLength", Node::Whole(64)),
            ])
        })
    }

    /// The schema of an object.
    fn body(&mut self, thing: &mut dyn Thing) -> Entries {
        let (mut properties, mut required) = (Vec::new(), Vec::new());
        self.members(thing, &mut properties, &mut required);
        object(properties, required)
    }

    fn members(&mut self, thing: &mut dyn Thing, properties: &mut Entries, required: &mut Vec<Node>) {
        let (name, _) = thing.title();
        let mut left_out = LeftOut::of(thing);
        self.following.append(&mut left_out.within);
        for Member { row, slot } in thing.members() {
            match (row.key, slot, row.form) {
                ("", Slot::Thing(mut thing), _) => self.members(&mut thing, properties, required),
                ("", Slot::OneOf(mut one), _) => {
                    let usual = one.place();
                    for place in 0..one.variants().entries.len() {
                        one.turn(place);
                        for Member { row, slot } in one.members() {
                            let without = self.without(name, &left_out, row, &slot);
                            let schema = self.property(slot, row, Absent::MayBe, without);
                            properties.push((row.key.to_owned(), schema));
                        }
                    }
                    one.turn(usual);
                }
                ("", _, Form::Flags(flags)) => {
                    for &(key, about, _) in flags {
                        let mut schema =
                            entries(&[("description", Node::text(about)), ("type", Node::text("boolean"))]);
                        schema.extend(left_out.usual(key).map(|usual| ("default".to_owned(), usual)));
                        properties.push((key.to_owned(), Node::Group(schema)));
                    }
                }
                (key, slot, _) => {
                    if row.absent == Absent::Never {
                        required.push(Node::text(key));
                    }
                    let without = self.without(name, &left_out, row, &slot);
                    properties.push((key.to_owned(), self.property(slot, row, row.absent, without)));
                }
            }
        }
    }

    /// What a member of a thing of this name is where a file leaves it out.
    fn without(&self, name: &str, left_out: &LeftOut, row: &'static Row, slot: &Slot<'_>) -> Without {
        let outer = |of: &&Following| (of.0, of.1) == (name, row.key) && !name.is_empty();
        match (left_out.followed(row.key), self.following.iter().find(outer), left_out.usual(row.key)) {
            (Some(cause), ..) => Without::Said(format!("When left out, the usual one for the `{cause}`.")),
            (_, Some((.., cause)), _) => {
                Without::Said(format!("When left out, the usual one for the `{cause}` that it belongs to."))
            }
            (.., Some(usual)) => Without::Usual(usual),
            _ => Without::Nothing(match words_without(slot, row) {
                "" | "without" => "None when left out.".to_owned(),
                words => format!("When left out: {words}."),
            }),
        }
    }

    /// The schema of a member, with what it means and what it is without.
    fn property(&mut self, slot: Slot<'_>, row: &'static Row, absent: Absent, without: Without) -> Node {
        let mut schema = Vec::new();
        let may_be_null = matches!(absent, Absent::MayBe | Absent::Usual);
        let (said, default) = match without {
            _ if absent == Absent::Never => (String::new(), None),
            Without::Usual(usual) => (String::new(), Some(usual)),
            Without::Said(said) => (said, None),
            Without::Nothing(said) => (said, may_be_null.then_some(Node::Null)),
        };
        // A row that says so itself says it better.
        let is_said = ["left out", "if any"].iter().any(|words| row.about.contains(words));
        let said = if is_said { String::new() } else { said };
        let about = [row.about, &said].into_iter().filter(|text| !text.is_empty()).collect::<Vec<_>>();
        if !about.is_empty() {
            schema.push(("description".to_owned(), Node::text(about.join(" "))));
        }
        let mut value = self.value(slot, row);
        if may_be_null {
            let null = Node::text("null");
            value = match value.iter_mut().find(|(key, _)| key == "type") {
                Some((_, kind)) => {
                    *kind = Node::List(vec![kind.clone(), null]);
                    value
                }
                None => {
                    let nothing = Node::Group(entries(&[("type", null)]));
                    entries(&[("anyOf", Node::List(vec![Node::Group(value), nothing]))])
                }
            };
        }
        schema.extend(value);
        schema.extend(default.map(|default| ("default".to_owned(), default)));
        Node::Group(schema)
    }

    fn value(&mut self, slot: Slot<'_>, row: &'static Row) -> Entries {
        match (slot, row.form) {
            (Slot::Length(_), _) => self.length(),
            (Slot::Size(_), _) => {
                let length = self.length();
                pair(length)
            }
            (Slot::Colour(_), _) => self.refer("ColourForm", |_| {
                entries(&[
                    ("description", Node::text("An sRGB colour as `#rrggbb`.")),
                    ("type", Node::text("string")),
                    ("pattern", Node::text("^#[0-9a-fA-F]{6}$")),
                ])
            }),
            (Slot::Number(_), Form::Number { least, most, .. }) => whole(least, most),
            (Slot::Pair(..), Form::Pair { least, most, .. }) => pair(whole(least, most)),
            (Slot::Flag(_), _) => entries(&[("type", Node::text("boolean"))]),
            (Slot::Text(_), Form::Text { most, may_be_empty }) => {
                let mut schema = entries(&[("type", Node::text("string"))]);
                if !may_be_empty {
                    schema.push(("minLength".to_owned(), Node::Whole(1)));
                }
                if most < usize::MAX {
                    schema.push(("maxLength".to_owned(), count(most)));
                }
                schema
            }
            (Slot::Choice(choice), _) => {
                let (name, about) = choice.title();
                let listed = choice.entries();
                self.refer(&[name, "Form"].concat(), |_| choices(about, &listed))
            }
            (Slot::OneOf(mut one), _) => self.one_of(one.as_mut()),
            (Slot::Maybe(mut maybe), _) => {
                maybe.fill();
                maybe.inner().map_or(Vec::new(), |Member { row, slot }| self.value(slot, row))
            }
            (Slot::Thing(mut thing), _) => {
                if let Some(Member { row, slot }) = bare(&mut thing) {
                    return self.value(slot, row);
                }
                let (name, about) = thing.title();
                self.refer(&[name, "Form"].concat(), |defs| {
                    let mut schema = Vec::new();
                    if !about.is_empty() {
                        schema.push(("description".to_owned(), Node::text(about)));
                    }
                    schema.extend(defs.body(&mut thing));
                    schema
                })
            }
            (Slot::List(list), Form::List { least, most, .. }) => {
                list.clear();
                list.push();
                let mut thing = list.item(0);
                super::start(thing);
                let (name, _) = thing.title();
                let alone = bare(&mut thing).map(|Member { row, slot }| self.value(slot, row));
                let items = alone
                    .unwrap_or_else(|| self.refer(&[name, "Form"].concat(), |defs| defs.body(&mut thing)));
                let mut schema = entries(&[("type", Node::text("array")), ("items", Node::Group(items))]);
                if least > 0 {
                    schema.push(("minItems".to_owned(), count(least)));
                }
                if most < usize::MAX {
                    schema.push(("maxItems".to_owned(), count(most)));
                }
                schema
            }
            _ => entries(&[("type", Node::text("string"))]),
        }
    }

    /// One of several: names that stand alone together, then each by itself.
    fn one_of(&mut self, one: &mut dyn OneOf) -> Entries {
        let variants = one.variants();
        self.refer(&[variants.name, "Form"].concat(), |defs| {
            let (mut plain, mut told) = (Vec::new(), Vec::new());
            for (place, entry) in variants.entries.iter().enumerate().filter(|(_, entry)| entry.is_written) {
                one.turn(place);
                let mut members = one.members();
                if members.is_empty() {
                    match entry.about {
                        "" => plain.push(Node::text(entry.key)),
                        _ => told.push(constant(entry)),
                    }
                    continue;
                }
                let inner = if are_one_value(&members) {
                    let Member { row, slot } = members.remove(0);
                    defs.value(slot, row)
                } else {
                    drop(members);
                    defs.body(&mut super::read::Payload(one))
                };
                let mut schema = Vec::new();
                if !entry.about.is_empty() {
                    schema.push(("description".to_owned(), Node::text(entry.about)));
                }
                schema.extend(entries(&[
                    ("type", Node::text("object")),
                    ("properties", Node::Group(entries(&[(entry.key, Node::Group(inner))]))),
                    ("required", Node::List(vec![Node::text(entry.key)])),
                    ("additionalProperties", Node::Flag(false)),
                ]));
                told.push(Node::Group(schema));
            }
            choice_of(variants.about, plain, told)
        })
    }
}

fn object(properties: Entries, required: Vec<Node>) -> Entries {
    let mut body = entries(&[("type", Node::text("object")), ("properties", Node::Group(properties))]);
    body.push(("additionalProperties".to_owned(), Node::Flag(false)));
    if !required.is_empty() {
        body.push(("required".to_owned(), Node::List(required)));
    }
    body
}

fn constant(entry: &Entry) -> Node {
    Node::Group(entries(&[
        ("description", Node::text(entry.about)),
        ("type", Node::text("string")),
        ("const", Node::text(entry.key)),
    ]))
}

fn choices(about: &str, listed: &[&'static Entry]) -> Entries {
    let written = || listed.iter().filter(|entry| entry.is_written);
    let plain: Vec<Node> =
        written().filter(|entry| entry.about.is_empty()).map(|entry| Node::text(entry.key)).collect();
    let told = written().filter(|entry| !entry.about.is_empty()).map(|entry| constant(entry)).collect();
    choice_of(about, plain, told)
}

fn choice_of(about: &str, plain: Vec<Node>, mut told: Vec<Node>) -> Entries {
    let mut schema = Vec::new();
    if !about.is_empty() {
        schema.push(("description".to_owned(), Node::text(about)));
    }
    let named = entries(&[("type", Node::text("string")), ("enum", Node::List(plain.clone()))]);
    if told.is_empty() {
        schema.extend(named);
    } else {
        if !plain.is_empty() {
            told.insert(0, Node::Group(named));
        }
        schema.push(("oneOf".to_owned(), Node::List(told)));
    }
    schema
}

fn count(number: usize) -> Node {
    Node::Whole(i64::try_from(number).unwrap_or(i64::MAX))
}

/// Numbers up to 2¹⁶ are of 16 bits.
fn whole(least: i64, most: i64) -> Entries {
    let format = if most <= 1000 { "uint16" } else { "uint32" };
    entries(&[
        ("type", Node::text("integer")),
        ("format", Node::text(format)),
        ("minimum", Node::Whole(least)),
        ("maximum", Node::Whole(most)),
    ])
}

fn pair(items: Entries) -> Entries {
    entries(&[
        ("type", Node::text("array")),
        ("items", Node::Group(items)),
        ("minItems", Node::Whole(2)),
        ("maxItems", Node::Whole(2)),
    ])
}

/// What a member is where a file leaves it out.
enum Without {
    /// This.
    Usual(Node),
    /// What a sentence says, since it is not always the same.
    Said(String),
    /// Nothing that a file could state, in a sentence.
    Nothing(String),
}

/// The words for what a member is now, or for its being missing.
fn words_without(slot: &Slot<'_>, row: &'static Row) -> &'static str {
    match (slot, row.form) {
        (Slot::Choice(choice), _) => choice.entries()[choice.place()].words,
        (Slot::OneOf(one), _) => one.variants().entries[one.place()].words,
        (_, Form::Maybe { words, .. }) => words.no,
        _ => "",
    }
}
