//! What the schemas say that a file means which leaves something out: leaving it out and stating that are the same.

use super::any_plan::any_plan;
use overmantel::plan::file;
use overmantel::prices::{self, Book};
use overmantel::stock::{self, Stock};
use proptest::strategy::{Strategy, ValueTree};
use proptest::test_runner::{Config, TestRng, TestRunner};
use serde_json::{Map, Value};
use std::collections::BTreeSet;

/// Of these two only one can be stated, so the default of one holds where the other is left out too.
const EITHER: [[&str; 2]; 2] = [["border", "sheet"], ["foot_extra", "foot_ratio"]];

/// A member that may be left out of an object of a file.
struct Optional {
    /// Where the object is, as a JSON pointer.
    owner: String,
    key: String,
    /// The key of the definition that it stands in.
    defined: String,
    default: Option<Value>,
}

/// What a schema says of one place: its definition by name, if it has one, and what that is.
fn resolved<'s>(root: &'s Value, schema: &'s Value) -> (Option<String>, &'s Value) {
    let Some(name) = schema["$ref"].as_str() else { return (None, schema) };
    let pointer = name.trim_start_matches('#');
    (Some(name.to_owned()), root.pointer(pointer).unwrap_or_else(|| panic!("no {name}")))
}

/// Finds what may be left out of a value, and in it.
fn look(root: &Value, schema: &Value, name: &str, at: &str, value: &Value, found: &mut Vec<Optional>) {
    let (referred, schema) = resolved(root, schema);
    let name = referred.unwrap_or_else(|| name.to_owned());
    for choice in ["anyOf", "oneOf"] {
        for (number, one) in schema[choice].as_array().into_iter().flatten().enumerate() {
            let (_, body) = resolved(root, one);
            let is_this = match (value, &body["properties"]) {
                (Value::Object(stated), Value::Object(known)) => {
                    stated.keys().all(|key| known.contains_key(key))
                }
                (Value::Object(_), _) => body["oneOf"].is_array(),
                _ => false,
            };
            if is_this {
                look(root, one, &format!("{name}/{number}"), at, value, found);
            }
        }
    }
    match value {
        Value::Array(items) => {
            for (number, item) in items.iter().enumerate() {
                look(
                    root,
                    &schema["items"],
                    &format!("{name}/items"),
                    &format!("{at}/{number}"),
                    item,
                    found,
                );
            }
        }
        Value::Object(stated) => {
            let none = Map::new();
            for (key, property) in schema["properties"].as_object().unwrap_or(&none) {
                if !is_required(schema, key) {
                    let default = property.get("default").cloned();
                    found.push(Optional {
                        owner: at.to_owned(),
                        key: key.clone(),
                        defined: name.clone(),
                        default,
                    });
                }
                if let Some(inner) = stated.get(key) {
                    look(root, property, &format!("{name}/{key}"), &format!("{at}/{key}"), inner, found);
                }
            }
        }
        _ => {}
    }
}

fn is_required(schema: &Value, key: &str) -> bool {
    schema["required"].as_array().into_iter().flatten().any(|one| one == key)
}

/// Tries every member of a file that may be left out; the names of those that have a default go to `tried`.
fn check<T: PartialEq>(
    schema: &Value,
    text: &str,
    read: impl Fn(&str) -> Option<T>,
    tried: &mut BTreeSet<String>,
) {
    let whole: Value = serde_json::from_str(text).unwrap_or_else(|why| panic!("{why}"));
    let mut found = Vec::new();
    look(schema, schema, "", "", &whole, &mut found);
    let mut seen = BTreeSet::new();
    for Optional { owner, key, defined, default } in found {
        let place = format!("{defined}.{key}");
        let (Some(default), true) = (default, seen.insert(place.clone())) else { continue };
        let with = |stated: Option<Value>| {
            let mut file = whole.clone();
            let object = file.pointer_mut(&owner).and_then(Value::as_object_mut).expect("an object");
            object.remove(&key);
            for other in EITHER.iter().filter(|pair| pair.contains(&key.as_str())).flatten() {
                object.remove(*other);
            }
            object.extend(stated.map(|value| (key.clone(), value)));
            read(&file.to_string())
        };
        let (without, stated) = (with(None), with(Some(default.clone())));
        let owned = whole.pointer(&owner);
        assert!(without == stated, "{place}: without it is not the same as with {default}, in {owned:?}");
        if without.is_some() {
            tried.insert(place);
        }
    }
}

/// Every place of a schema with a default, by the names that [`look`] gives; and that what has none says what it is without.
fn places(schema: &Value) -> BTreeSet<String> {
    fn within(schema: &Value, name: &str, found: &mut BTreeSet<String>) {
        for choice in ["anyOf", "oneOf"] {
            for (number, one) in schema[choice].as_array().into_iter().flatten().enumerate() {
                within(one, &format!("{name}/{number}"), found);
            }
        }
        for (key, property) in schema["properties"].as_object().into_iter().flatten() {
            if !is_required(schema, key) {
                let about = property["description"].as_str().unwrap_or_default();
                let is_said = about.contains("left out") || about.contains("if any");
                match property.get("default") {
                    Some(default) => {
                        assert!(is_said || !default.is_null(), "{name}.{key} says nothing of null: {about}");
                        found.insert(format!("{name}.{key}"));
                    }
                    None => assert!(is_said, "{name}.{key} has no default: {about}"),
                }
            }
            within(property, &format!("{name}/{key}"), found);
        }
        if schema["items"].is_object() {
            within(&schema["items"], &format!("{name}/items"), found);
        }
    }
    let mut found = BTreeSet::new();
    within(schema, "", &mut found);
    for (name, body) in schema["$defs"].as_object().into_iter().flatten() {
        within(body, &format!("#/$defs/{name}"), &mut found);
    }
    found
}

fn parsed(text: &str) -> Value {
    serde_json::from_str(text).unwrap_or_else(|why| panic!("{why}"))
}

/// Places that were tried in none of the files, though their defaults are stated.
#[track_caller]
fn check_all_tried(places: &BTreeSet<String>, tried: &BTreeSet<String>) {
    let untried: Vec<_> = places.difference(tried).collect();
    assert!(untried.is_empty(), "{untried:?}");
}

#[test]
fn of_a_plan_what_is_left_out_is_as_the_schema_says() {
    let schema = parsed(&file::schema());
    let all = places(&schema);
    assert!(all.len() > 60, "{all:?}");
    let rng = TestRng::deterministic_rng(proptest::test_runner::RngAlgorithm::ChaCha);
    let mut runner = TestRunner::new_with_rng(Config::default(), rng);
    let mut tried = BTreeSet::new();
    for _ in 0..120 {
        let plan = any_plan().new_tree(&mut runner).expect("a plan").current();
        check(&schema, &file::write(&plan), |text| file::read(text).ok(), &mut tried);
    }
    check_all_tried(&all, &tried);
}

#[test]
fn of_a_stock_what_is_left_out_is_as_the_schema_says() {
    let schema = parsed(&stock::file::schema());
    let added = r#"{ "overmantel_stock": 1, "bars": { "add": [{ "name": "low", "depth": "1/2 in", "width": "1 in" }] } }"#;
    let mut tried = BTreeSet::new();
    for text in [&Stock::offered().write(), added] {
        check(&schema, text, |text| Stock::read(text).ok(), &mut tried);
    }
    // Lists of each kind have a form of their own, alike but for their rows.
    check_all_tried(&places(&schema), &tried);
}

#[test]
fn of_a_price_book_what_is_left_out_is_as_the_schema_says() {
    let schema = parsed(&prices::file::schema());
    let book = r#"{ "overmantel_prices": 1, "name": "ours", "currency": "EUR", "tax": { "percent": "20" },
        "rows": [{ "for": "frame", "only": "oak", "by": { "metre": "30" } }] }"#;
    let mut tried = BTreeSet::new();
    check(&schema, book, |text| Book::read(text).ok(), &mut tried);
    check_all_tried(&places(&schema), &tried);
}
