//! The published schemas accept what the reader accepts and refuse typing slips.
//!
//! Judged by the `jsonschema` crate, an independent validator of JSON Schema draft 2020-12.

use latchline_site::builtin_catalogue;
use latchline_site::schema::{catalogue_schema, site_schema};
use serde_json::Value;

const TWELVE_FLATS: &str = include_str!("../../../docs/examples/twelve-flats.toml");

fn validator(schema: &Value) -> jsonschema::Validator {
    jsonschema::draft202012::meta::validate(schema).expect("a schema of its draft");
    jsonschema::validator_for(schema).expect("a schema")
}

/// TOML as the JSON that schema-aware editors see; dates become text.
fn json(text: &str) -> Value {
    fn convert(value: toml::Value) -> Value {
        match value {
            toml::Value::String(text) => text.into(),
            toml::Value::Integer(number) => number.into(),
            toml::Value::Float(number) => number.into(),
            toml::Value::Boolean(truth) => truth.into(),
            toml::Value::Datetime(date) => date.to_string().into(),
            toml::Value::Array(items) => items.into_iter().map(convert).collect(),
            toml::Value::Table(table) => {
                Value::Object(table.into_iter().map(|(key, value)| (key, convert(value))).collect())
            }
        }
    }
    convert(toml::Value::Table(text.parse().expect("TOML")))
}

#[test]
fn the_worked_example_and_the_built_in_catalogue_are_valid() {
    let site = validator(&site_schema());
    assert!(site.is_valid(&json(TWELVE_FLATS)));
    let accepted = format!("{TWELVE_FLATS}\n[[accept]]\ncode = \"x\"\nreason = \"y\"\ndate = 2026-11-02\n");
    assert!(site.is_valid(&json(&accepted)));
    let catalogue = json(builtin_catalogue().1);
    let catalogue_validator = validator(&catalogue_schema());
    let errors: Vec<String> =
        catalogue_validator.iter_errors(&catalogue).map(|error| error.to_string()).collect();
    assert_eq!(errors, [""; 0]);
}

#[test]
fn slips_are_refused() {
    let site = validator(&site_schema());
    for (right, wrong) in [
        ("outdoors = true", "outdors = true"),
        ("length = \"9 m\"", "length = \"9\""),
        ("length = \"9 m\"", "length = 9"),
        ("length = \"9 m\"", "length = \"9 V\""),
        ("length = \"1.5 m\"", "length = \"1,5 m\""),
        ("role = \"main\"", "role = \"mian\""),
        ("outdoors = true", "outdoors = \"yes\""),
        ("title = \"Quillmere House\"\nfamily", "family"),
        ("from = \"PS\", ", ""),
    ] {
        let text = TWELVE_FLATS.replacen(right, wrong, 1);
        assert_ne!(text, TWELVE_FLATS, "{right}");
        assert!(!site.is_valid(&json(&text)), "{wrong}");
    }
    for spelling in ["9 m", "9m", "9 ft", "0.009 km", "1e1 m"] {
        let text = TWELVE_FLATS.replace("length = \"9 m\"", &format!("length = \"{spelling}\""));
        assert!(site.is_valid(&json(&text)), "{spelling}");
    }
}
