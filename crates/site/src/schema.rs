//! JSON Schemas (draft 2020-12) of the site file and of catalogue files, made from the key
//! tables, so that editors can complete and check while a person types.
//!
//! A schema sees one value at a time: names that refer to nothing, and wiring that makes no
//! sense, only [`resolve`](crate::resolve()) finds.

use crate::catalogue::CATALOGUE_FILE;
use crate::keys::{Dimension, Kind, TableSpec, Without};
use crate::model::SITE_FILE;
use latchline_finding::Language;
use serde_json::{Map, Value, json};

/// Number part of a quantity.
const NUMBER: &str = r"[+-]?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?";

/// The schema of a site file.
pub fn site_schema() -> Value {
    schema(&SITE_FILE, "Latchline site file")
}

/// The schema of a catalogue file.
pub fn catalogue_schema() -> Value {
    schema(&CATALOGUE_FILE, "Latchline catalogue file")
}

fn schema(spec: &'static TableSpec, title: &str) -> Value {
    let mut definitions = Map::new();
    let Value::Object(mut root) = table(spec, &mut definitions) else { return Value::Null };
    root.insert("$schema".into(), json!("https://json-schema.org/draft/2020-12/schema"));
    root.insert("title".into(), json!(title));
    root.insert("$defs".into(), Value::Object(definitions));
    Value::Object(root)
}

fn table(spec: &'static TableSpec, definitions: &mut Map<String, Value>) -> Value {
    let mut properties = Map::new();
    for key in spec.keys {
        let mut value = kind(&key.kind, spec, definitions);
        if let Value::Object(object) = &mut value {
            object.insert("description".into(), json!(key.doc));
        }
        properties.insert(key.name.into(), value);
    }
    let required = spec.keys.iter().filter(|key| key.without == Without::Refused);
    let required: Vec<&str> = required.map(|key| key.name).collect();
    json!({
        "type": "object",
        "description": spec.doc,
        "properties": properties,
        "required": required,
        "additionalProperties": false,
    })
}

fn reference(spec: &'static TableSpec, definitions: &mut Map<String, Value>) -> Value {
    let name = spec.name.say(Language::English).replace(' ', "-");
    if !definitions.contains_key(&name) {
        // Reserve the name first: a table that holds itself would otherwise never end.
        definitions.insert(name.clone(), Value::Null);
        let inner = table(spec, definitions);
        definitions.insert(name.clone(), inner);
    }
    json!({ "$ref": format!("#/$defs/{name}") })
}

fn kind(kind_of_value: &Kind, spec: &'static TableSpec, definitions: &mut Map<String, Value>) -> Value {
    match kind_of_value {
        Kind::Text => json!({ "type": "string" }),
        Kind::Date => json!({ "type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}$" }),
        Kind::Integer(low, high) => json!({ "type": "integer", "minimum": low, "maximum": high }),
        Kind::Number(low, high) => json!({ "type": "number", "minimum": low, "maximum": high }),
        Kind::Boolean => json!({ "type": "boolean" }),
        Kind::BooleanOr(word) => json!({ "enum": [true, false, word] }),
        Kind::Quantity(bounds) => json!({
            "type": "string",
            "pattern": format!("^{NUMBER}\\s*(?:{})$", units(&[bounds.dimension])),
            "examples": [bounds.example],
        }),
        Kind::Load => json!({
            "type": "string",
            "pattern": format!(
                "^{NUMBER}\\s*(?:{})$",
                units(&[Dimension::Power, Dimension::Current, Dimension::Resistance])
            ),
            "examples": ["4.5 W", "85 mA", "470 ohm"],
        }),
        Kind::Gauge => json!({
            "type": "string",
            "pattern": format!(
                "^(?:AWG\\s*\\d+|{NUMBER}\\s*(?:{}))$",
                units(&[Dimension::Area, Dimension::Length, Dimension::WireGauge, Dimension::ResistancePerLength])
            ),
            "examples": ["1.5 mm²", "0.8 mm", "24 AWG"],
        }),
        Kind::Words(words) => json!({ "enum": words }),
        Kind::List(item) => json!({ "type": "array", "items": kind(item, spec, definitions) }),
        Kind::OneOrMany(item) => {
            let one = kind(item, spec, definitions);
            json!({ "anyOf": [one.clone(), { "type": "array", "items": one }] })
        }
        Kind::KeyNames => {
            let names: Vec<&str> = spec.keys.iter().map(|key| key.name).collect();
            json!({ "type": "array", "items": { "enum": names } })
        }
        Kind::Table(inner) => reference(inner, definitions),
        Kind::Named(inner) => json!({
            "type": "object",
            "propertyNames": { "minLength": 1 },
            "additionalProperties": reference(inner, definitions),
        }),
    }
}

/// The units of some dimensions as a pattern, with every spelling that the reader accepts.
fn units(dimensions: &[Dimension]) -> String {
    let mut patterns = Vec::new();
    for &dimension in dimensions {
        for symbol in dimension.symbols() {
            let mut pattern = match symbol.strip_prefix('u') {
                Some(rest) => format!("[u\u{b5}\u{3bc}]{rest}"),
                None => symbol.to_string(),
            };
            if dimension == Dimension::Temperature {
                pattern = format!("°?{pattern}");
            }
            patterns.push(pattern.replace("ohm", "(?:ohm|\u{3a9}|\u{2126})").replace("mm2", "mm(?:2|²)"));
        }
    }
    patterns.join("|")
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn two_tables_do_not_share_a_definition() {
        fn collect(spec: &'static TableSpec, seen: &mut Vec<&'static TableSpec>) {
            if seen.iter().any(|known| std::ptr::eq(*known, spec)) {
                return;
            }
            seen.push(spec);
            for key in spec.keys {
                match key.kind {
                    Kind::Table(inner) | Kind::Named(inner) => collect(inner, seen),
                    Kind::List(Kind::Table(inner)) => collect(inner, seen),
                    _ => {}
                }
            }
        }
        for root in [&SITE_FILE, &CATALOGUE_FILE] {
            let mut tables = Vec::new();
            collect(root, &mut tables);
            let names: BTreeSet<_> = tables.iter().map(|spec| spec.name).collect();
            assert_eq!(names.len(), tables.len());
        }
    }
}
