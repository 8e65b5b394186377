//! A snapshot of every format, made from hand-made assessments.
#![allow(clippy::disallowed_methods, reason = "a test holds the published schema against the current one")]

use crate::common::{DOCS, collapsed, failing, holding, sources};
use latchline_assess::Assessment;
use latchline_finding::{Code, Finding, Language, Severity};
use latchline_report::{Detail, Look, Report, compare, json, json_sheets, sarif, short, text};

fn with_report<T>(assessment: &Assessment, use_it: impl FnOnce(&Report<'_>) -> T) -> T {
    let sources = sources();
    use_it(&Report::new("jobs/site.toml", &sources, &[], Some(assessment), DOCS.iter().copied()))
}

fn unusable<T>(use_it: impl FnOnce(&Report<'_>) -> T) -> T {
    let sources = sources();
    let findings = [
        Finding::new(Code("unknown-key"), Severity::Error, crate::common::at("family"))
            .with("key", "family")
            .with("table", "[site]")
            .with("nearest", vec![String::from("families")]),
        Finding::new(Code("toml-syntax"), Severity::Error, crate::common::at("[runs]"))
            .with("detail", "expected `]`"),
    ];
    use_it(&Report::new("jobs/site.toml", &sources, &findings, None, DOCS.iter().copied()))
}

fn text_of(assessment: &Assessment, width: usize) -> String {
    with_report(assessment, |report| text::render(report, &Look { width, ..Look::default() }, Detail::Lines))
}

#[test]
fn text_of_a_failing_site() {
    insta::assert_snapshot!(text_of(&failing(), 100));
}

#[test]
fn text_of_a_site_that_holds_on_assumed_data() {
    insta::assert_snapshot!(text_of(&holding(), 100));
}

#[test]
fn text_of_a_site_without_operating_point() {
    insta::assert_snapshot!(text_of(&collapsed(), 100));
}

#[test]
fn text_of_an_unusable_file() {
    insta::assert_snapshot!(unusable(|report| text::render(report, &Look::default(), Detail::Lines)));
}

#[test]
fn text_on_a_narrow_page_stacks_its_rows() {
    insta::assert_snapshot!(text_of(&failing(), 60));
}

#[test]
fn tables_and_sentences_stay_within_the_page() {
    for width in [60, 80, 100, 132] {
        for assessment in [failing(), holding(), collapsed()] {
            let text = text_of(&assessment, width);
            // Lines of the snippets follow the file; everything else is ours.
            let snippet = |line: &str| line.contains(" | ") || line.contains("-->") || line.contains("  = ");
            let message = |line: &str| line.starts_with("error[") || line.starts_with("warning[");
            for line in text.lines().filter(|line| !snippet(line) && !message(line)) {
                assert!(line.chars().count() <= width, "{width}: {line}");
            }
        }
    }
}

#[test]
fn colour_only_adds_escapes() {
    let sources = sources();
    let assessment = failing();
    let report = Report::new("jobs/site.toml", &sources, &[], Some(&assessment), DOCS.iter().copied());
    let plain = text::render(&report, &Look::default(), Detail::Lines);
    let coloured = text::render(&report, &Look { colour: true, ..Look::default() }, Detail::Lines);
    assert!(!plain.contains('\u{1b}'));
    assert!(coloured.contains("\u{1b}["));
    let mut stripped = String::new();
    let mut rest = coloured.as_str();
    while let Some((before, after)) = rest.split_once('\u{1b}') {
        stripped.push_str(before);
        rest = after.split_once('m').expect("an escape ends with m").1;
    }
    stripped.push_str(rest);
    let squeeze = |text: &str| text.lines().map(str::trim_end).collect::<Vec<_>>().join("\n");
    assert_eq!(squeeze(&stripped), squeeze(&plain));
}

#[test]
fn short_lines() {
    insta::assert_snapshot!(with_report(&failing(), |report| short::render(report, Language::English)));
}

#[test]
fn json_of_a_failing_site() {
    insta::assert_snapshot!(with_report(&failing(), |report| json::render(report).unwrap()));
}

#[test]
fn json_documents_are_valid_and_hold_no_null() {
    let validator = jsonschema::draft202012::new(&json::schema()).expect("the schema is a schema");
    let documents = [
        with_report(&failing(), |report| json::render(report).unwrap()),
        with_report(&holding(), |report| json::render(report).unwrap()),
        with_report(&collapsed(), |report| json::render(report).unwrap()),
        unusable(|report| json::render(report).unwrap()),
    ];
    for document in documents {
        let value: serde_json::Value = serde_json::from_str(&document).unwrap();
        let errors: Vec<String> = validator.iter_errors(&value).map(|error| error.to_string()).collect();
        assert!(errors.is_empty(), "{errors:?}");
        assert!(!document.contains("null"), "{document}");
    }
    let mut wrong: serde_json::Value =
        serde_json::from_str(&with_report(&failing(), |report| json::render(report).unwrap())).unwrap();
    wrong["findings"][0]["severity"] = serde_json::json!(3);
    assert!(!validator.is_valid(&wrong), "the schema tells a wrong document");
}

#[test]
fn the_published_schemas_are_current() {
    for (name, schema) in [
        ("check", json::schema()),
        ("door", json_sheets::door_schema()),
        ("supply", json_sheets::supply_schema()),
        ("compare", compare::schema()),
    ] {
        let path = format!("{}/../../docs/schema/{name}.schema.json", env!("CARGO_MANIFEST_DIR"));
        let current = serde_json::to_string_pretty(&schema).unwrap() + "\n";
        if std::env::var_os("LATCHLINE_UPDATE_DOCS").is_some() {
            std::fs::create_dir_all(std::path::Path::new(&path).parent().unwrap()).unwrap();
            std::fs::write(&path, &current).unwrap();
        }
        let published = std::fs::read_to_string(&path).unwrap_or_default();
        assert!(published == current, "{path} is old: set LATCHLINE_UPDATE_DOCS and run again");
    }
}

#[test]
fn sarif_of_a_failing_site() {
    insta::assert_snapshot!(with_report(&failing(), |report| sarif::render(report, "jobs/").unwrap()));
}

#[test]
fn exit_thresholds() {
    let fails_at =
        |assessment: &Assessment, severity| with_report(assessment, |report| report.fails_at(severity));
    assert!(fails_at(&failing(), Severity::Error));
    assert!(!fails_at(&holding(), Severity::Advice));
    let mut missing = holding();
    missing.not_judged = failing().not_judged;
    assert!(!fails_at(&missing, Severity::Error));
    assert!(fails_at(&missing, Severity::Warning), "what is not judged is never clean");
}
