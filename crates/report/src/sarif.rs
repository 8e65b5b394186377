//! The subset of SARIF 2.1.0 (OASIS standard, Static Analysis Results Interchange Format) that code
//! review tools read.
//!
//! Columns count from 1 in Unicode code points, addresses of files are relative, and every result
//! carries a fingerprint made of its code and element, so that moving a line keeps it the same.

use crate::place::{Place, column_letters};
use crate::report::Report;
use crate::wording;
use latchline_assess::NotJudged;
use latchline_finding::{CodeDoc, Finding, Language, Origin, Severity};
use latchline_words::codes;
use latchline_words::report::role;
use serde::Serialize;
use std::collections::BTreeMap;

#[derive(Serialize)]
struct Log {
    #[serde(rename = "$schema")]
    schema: &'static str,
    version: &'static str,
    runs: [Run; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Run {
    tool: Tool,
    column_kind: &'static str,
    results: Vec<ResultObject>,
}

#[derive(Serialize)]
struct Tool {
    driver: Driver,
}

#[derive(Serialize)]
struct Driver {
    name: &'static str,
    version: &'static str,
    rules: Vec<Rule>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Rule {
    id: &'static str,
    short_description: Message,
    full_description: Message,
    help: Message,
    default_configuration: Configuration,
}

#[derive(Serialize)]
struct Configuration {
    level: &'static str,
}

#[derive(Serialize)]
struct Message {
    text: String,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct ResultObject {
    rule_id: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    rule_index: Option<usize>,
    /// "open" where the rule could not be applied (SARIF 2.1.0, 3.27.9); left out, it is a failure.
    #[serde(skip_serializing_if = "Option::is_none")]
    kind: Option<&'static str>,
    level: &'static str,
    message: Message,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    locations: Vec<Location>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    related_locations: Vec<Location>,
    partial_fingerprints: BTreeMap<&'static str, String>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    suppressions: Vec<Suppression>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Location {
    #[serde(skip_serializing_if = "Option::is_none")]
    physical_location: Option<PhysicalLocation>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    logical_locations: Vec<LogicalLocation>,
    #[serde(skip_serializing_if = "Option::is_none")]
    message: Option<Message>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct PhysicalLocation {
    artifact_location: ArtifactLocation,
    region: Region,
}

#[derive(Serialize)]
struct ArtifactLocation {
    uri: String,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Region {
    start_line: usize,
    start_column: usize,
    end_line: usize,
    end_column: usize,
}

#[derive(Serialize)]
struct LogicalLocation {
    name: String,
}

#[derive(Serialize)]
struct Suppression {
    kind: &'static str,
    justification: String,
}

/// The report as a SARIF log with a line break at its end. Names of files that begin with `base`
/// (a folder with its final slash) are given relative to it.
///
/// # Errors
/// If it cannot be written as JSON, which the types here rule out.
pub fn render(report: &Report<'_>, base: &str) -> Result<String, serde_json::Error> {
    let rules: Vec<Rule> = report.codes.iter().copied().map(rule).collect();
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    let findings = report.standing.iter().chain(&report.accepted);
    let mut results: Vec<ResultObject> =
        findings.map(|finding| result(report, finding, base, &mut seen)).collect();
    let missing = report.assessment.iter().flat_map(|assessment| &assessment.not_judged);
    results.extend(missing.map(|missing| not_judged(report, missing, &mut seen)));
    let log = Log {
        schema: "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
        version: "2.1.0",
        runs: [Run {
            tool: Tool { driver: Driver { name: "latchline", version: env!("CARGO_PKG_VERSION"), rules } },
            column_kind: "unicodeCodePoints",
            results,
        }],
    };
    crate::json::text(&log)
}

fn level(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Advice => "note",
    }
}

/// What programs read stays English.
const ENGLISH: Language = Language::English;

fn rule(doc: &'static CodeDoc) -> Rule {
    let words = codes::of(doc.code.as_str());
    let title = words.map_or(doc.code.as_str(), |words| words.title(ENGLISH));
    Rule {
        id: doc.code.as_str(),
        short_description: Message { text: title.to_string() },
        full_description: Message { text: format!("{}.", wording::capital(title.trim_end_matches('.'))) },
        help: Message { text: words.map(|words| words.page(ENGLISH)).unwrap_or_default() },
        default_configuration: Configuration { level: level(doc.severity) },
    }
}

fn result(
    report: &Report<'_>,
    finding: &Finding,
    base: &str,
    seen: &mut BTreeMap<String, usize>,
) -> ResultObject {
    let code = finding.code.as_str();
    let said = codes::wording(finding, ENGLISH);
    let mut message = format!("{}.", codes::sentence(finding, ENGLISH).trim_end_matches('.'));
    if let Some(hint) = said.hint {
        message = format!("{message} {}.", wording::capital(hint.trim_end_matches('.')));
    }
    for remedy in &finding.remedies {
        message = format!("{message} Remedy: {}.", wording::remedy(remedy, report.currency(), ENGLISH));
    }
    let element = finding.element.as_ref().map(ToString::to_string);
    let logical_locations: Vec<LogicalLocation> =
        element.iter().map(|name| LogicalLocation { name: name.clone() }).collect();
    let mut logical_locations = logical_locations;
    let physical_location = match &finding.origin {
        Origin::Cell { file, sheet, row, column } => {
            logical_locations
                .push(LogicalLocation { name: format!("{sheet}!{}{row}", column_letters(*column)) });
            let file = report.places.file(*file);
            file.map(|file| physical(cell(file.name.clone(), *row as usize, *column as usize), base))
        }
        origin => report.places.of(origin).map(|place| physical(place, base)),
    };
    let locations = if physical_location.is_none() && logical_locations.is_empty() {
        Vec::new()
    } else {
        vec![Location { physical_location, logical_locations, message: None }]
    };
    let related_locations = finding
        .related
        .iter()
        .filter_map(|related| {
            Some(Location {
                physical_location: Some(physical(report.places.of(&related.origin)?, base)),
                logical_locations: Vec::new(),
                message: Some(Message { text: role(related.role, ENGLISH) }),
            })
        })
        .collect();
    ResultObject {
        rule_id: code,
        rule_index: report.codes.iter().position(|doc| doc.code == code),
        kind: None,
        level: level(finding.severity),
        message: Message { text: message },
        locations,
        related_locations,
        partial_fingerprints: BTreeMap::from([("codeAndElement/v1", fingerprint(code, element, seen))]),
        suppressions: finding
            .accepted
            .iter()
            .map(|acceptance| Suppression {
                kind: "external",
                justification: format!("{} ({})", acceptance.reason, acceptance.date),
            })
            .collect(),
    }
}

/// A rule that could not be applied, and what it lacks.
fn not_judged(report: &Report<'_>, missing: &NotJudged, seen: &mut BTreeMap<String, usize>) -> ResultObject {
    let code = missing.code.as_str();
    let words = wording::capital(wording::not_judged(missing, ENGLISH).trim_end_matches('.'));
    let names = missing.elements.iter().map(|element| LogicalLocation { name: element.to_string() });
    let locations = match names.collect::<Vec<_>>() {
        none if none.is_empty() => Vec::new(),
        logical_locations => vec![Location { physical_location: None, logical_locations, message: None }],
    };
    let first = missing.elements.first().map(ToString::to_string);
    ResultObject {
        rule_id: code,
        rule_index: report.codes.iter().position(|doc| doc.code == code),
        kind: Some("open"),
        // A result that is open has no level (3.27.10).
        level: "none",
        message: Message { text: format!("Not judged: {words}.") },
        locations,
        related_locations: Vec::new(),
        partial_fingerprints: BTreeMap::from([("codeAndElement/v1", fingerprint(code, first, seen))]),
        suppressions: Vec::new(),
    }
}

/// Code and element, and a count from the second of the same on.
fn fingerprint(code: &str, element: Option<String>, seen: &mut BTreeMap<String, usize>) -> String {
    let key = format!("{code}:{}", element.unwrap_or_default());
    let count = seen.entry(key.clone()).or_insert(0);
    *count += 1;
    if *count == 1 { key } else { format!("{key}:{count}") }
}

/// A cell as a place: its row as the line, its column as the column. The sheet is a logical location.
fn cell(file: String, row: usize, column: usize) -> Place {
    Place { file, line: row, column, end_line: row, end_column: column + 1 }
}

fn physical(place: Place, base: &str) -> PhysicalLocation {
    let Place { file, line, column, end_line, end_column } = place;
    PhysicalLocation {
        artifact_location: ArtifactLocation { uri: uri(file.strip_prefix(base).unwrap_or(&file)) },
        region: Region { start_line: line, start_column: column, end_line, end_column },
    }
}

/// A file name as a URI reference (RFC 3986): `/` between folders, everything unusual escaped.
fn uri(name: &str) -> String {
    let name = name.strip_prefix("./").unwrap_or(name);
    let mut uri = String::from(if name.starts_with('/') { "file://" } else { "" });
    for byte in name.bytes() {
        match byte {
            b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' | b'/' => {
                uri.push(byte.into())
            }
            b'\\' => uri.push('/'),
            _ => uri.push_str(&format!("%{byte:02X}")),
        }
    }
    uri
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_of_files_become_uri_references() {
        assert_eq!(uri("./a b/sité.toml"), "a%20b/sit%C3%A9.toml");
        assert_eq!(uri("jobs\\site.toml"), "jobs/site.toml");
        assert_eq!(uri("c:x"), "c%3Ax");
        assert_eq!(uri("/srv/site.toml"), "file:///srv/site.toml");
    }

    #[test]
    fn fingerprints_of_the_same_thing_are_told_apart() {
        let mut seen = BTreeMap::new();
        assert_eq!(fingerprint("a", Some("X".into()), &mut seen), "a:X");
        assert_eq!(fingerprint("a", Some("X".into()), &mut seen), "a:X:2");
        assert_eq!(fingerprint("a", None, &mut seen), "a:");
    }
}
