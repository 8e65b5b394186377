//! Findings, their places and their remedies in the check document.

use crate::json_edits::{ChangeDocument, changes};
use crate::json_values::{CallDocument, calls, finite};
use crate::report::Report;
use crate::{place, wording};
use latchline_finding::{Argument, Brought, DataGrade, Figure, Finding, Language, Origin, Remedy, Unit};
use latchline_words::codes;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// One finding.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct FindingDocument {
    /// "error", "warning" or "advice".
    severity: &'static str,
    /// Code in kebab case.
    code: &'static str,
    /// What is wrong, in English.
    message: String,
    /// What to do, in English.
    #[serde(skip_serializing_if = "Option::is_none")]
    hint: Option<String>,
    /// The element it is about.
    #[serde(skip_serializing_if = "Option::is_none")]
    element: Option<String>,
    /// Name of the operating state.
    #[serde(skip_serializing_if = "Option::is_none")]
    state: Option<&'static str>,
    /// The calls that stand in it.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    calls: Vec<CallDocument>,
    /// The figure found, in `unit`.
    #[serde(skip_serializing_if = "Option::is_none")]
    value: Option<f64>,
    /// The figure it is held against, in `unit`.
    #[serde(skip_serializing_if = "Option::is_none")]
    limit: Option<f64>,
    /// Unit of value and limit: "V", "A", "W", "ohm", "m", "s", "h", "F", "Ah", "Hz", "dB", "°C",
    /// "ratio" (1 is all) or "count".
    #[serde(skip_serializing_if = "Option::is_none")]
    unit: Option<&'static str>,
    /// Where it is written in a file.
    #[serde(skip_serializing_if = "Option::is_none")]
    origin: Option<OriginDocument>,
    /// Further places.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    related: Vec<RelatedDocument>,
    /// "known" or "assumed".
    grade: &'static str,
    /// The assumed values under it, as "model key".
    #[serde(skip_serializing_if = "Vec::is_empty")]
    assumed: Vec<String>,
    /// Named arguments of the message.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    arguments: BTreeMap<&'static str, ArgumentDocument>,
    /// Changes that were computed and verified to mend it, best first.
    remedies: Vec<RemedyDocument>,
    /// Set when the user has accepted it.
    #[serde(skip_serializing_if = "Option::is_none")]
    accepted: Option<AcceptanceDocument>,
}

/// A finding by what names it.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct FindingName {
    /// Its code.
    code: &'static str,
    /// Its element.
    #[serde(skip_serializing_if = "Option::is_none")]
    element: Option<String>,
}

/// What names a finding.
pub(crate) fn finding_name(finding: &Finding) -> FindingName {
    FindingName {
        code: finding.code.as_str(),
        element: finding.element.as_ref().map(|element| element.to_string()),
    }
}

/// An argument of a message.
#[derive(Debug, Serialize, JsonSchema)]
#[serde(untagged)]
enum ArgumentDocument {
    /// Text.
    Text(String),
    /// Several texts.
    Texts(Vec<String>),
    /// A number with its unit.
    Figure(FigureDocument),
}

/// A number with its unit.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct FigureDocument {
    /// The number; left out if it is not finite.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(crate) value: Option<f64>,
    /// Its unit.
    pub(crate) unit: &'static str,
}

/// A place in a file. Text files have lines and columns from 1, counted in characters, the end one
/// past the last; workbooks have sheet, row and column.
#[derive(Debug, Serialize, JsonSchema)]
struct OriginDocument {
    /// Name of the file as given.
    #[serde(skip_serializing_if = "Option::is_none")]
    file: Option<String>,
    /// Sheet of a workbook.
    #[serde(skip_serializing_if = "Option::is_none")]
    sheet: Option<String>,
    /// First line, or row of a workbook.
    #[serde(skip_serializing_if = "Option::is_none")]
    line: Option<usize>,
    /// First column.
    #[serde(skip_serializing_if = "Option::is_none")]
    column: Option<usize>,
    /// Last line.
    #[serde(skip_serializing_if = "Option::is_none")]
    end_line: Option<usize>,
    /// One past the last column.
    #[serde(skip_serializing_if = "Option::is_none")]
    end_column: Option<usize>,
    /// Element at which a reading was taken.
    #[serde(skip_serializing_if = "Option::is_none")]
    element: Option<String>,
    /// Number of the reading.
    #[serde(skip_serializing_if = "Option::is_none")]
    reading: Option<u32>,
}

/// A further place.
#[derive(Debug, Serialize, JsonSchema)]
struct RelatedDocument {
    /// What it is to the finding.
    role: &'static str,
    /// Where.
    origin: OriginDocument,
}

/// The user's word that a finding stays.
#[derive(Debug, Serialize, JsonSchema)]
struct AcceptanceDocument {
    /// Why.
    reason: String,
    /// When, as the user wrote it.
    date: String,
}

/// A verified remedy.
#[derive(Debug, Serialize, JsonSchema)]
pub(crate) struct RemedyDocument {
    /// Its kind.
    kind: &'static str,
    /// In English.
    message: String,
    /// The finding's figure after the change.
    #[serde(skip_serializing_if = "Option::is_none")]
    value_after: Option<f64>,
    /// Extra cost in the catalogue's currency.
    #[serde(skip_serializing_if = "Option::is_none")]
    cost: Option<f64>,
    /// Where something of it has no price, what the rest costs.
    #[serde(skip_serializing_if = "Option::is_none")]
    priced: Option<f64>,
    /// Extra labour in minutes, making good not included.
    #[serde(skip_serializing_if = "Option::is_none")]
    labour_minutes: Option<f64>,
    /// The changes to the site file, in order.
    changes: Vec<ChangeDocument>,
    /// Findings that come with it, none of them an error.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    brings: Vec<BroughtDocument>,
    /// What it makes of doors and stations while the mains are lost, where that was otherwise.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    mains_lost: Vec<MainsLostDocument>,
    /// For one that changes only what is known: what has to be measured.
    #[serde(skip_serializing_if = "Option::is_none")]
    measure: Option<LoopMeasurementDocument>,
}

/// What becomes of doors or stations while the mains are lost.
#[derive(Debug, Serialize, JsonSchema)]
struct MainsLostDocument {
    /// "lock-opens", "lock-stays-shut" or "light-goes-out", each also with "-unless-battery" where it has a supply of its own of which nothing
    /// more is stated; "station-goes-dark".
    what: &'static str,
    /// The doors, or the stations.
    elements: Vec<String>,
}

/// A finding that comes with a remedy.
#[derive(Debug, Serialize, JsonSchema)]
struct BroughtDocument {
    /// Its code.
    code: &'static str,
    /// How much it matters.
    severity: &'static str,
    /// What it is about.
    #[serde(skip_serializing_if = "Option::is_none")]
    element: Option<String>,
}

/// A loop resistance to measure, the electronics disconnected.
#[derive(Debug, Serialize, JsonSchema)]
struct LoopMeasurementDocument {
    /// The run.
    run: String,
    /// Where the ohmmeter goes.
    at: String,
    /// Where both conductors are joined.
    joined_at: String,
    /// What it should read by what is stated.
    expected_ohm: f64,
    /// The most that it may read for the finding to go.
    most_ohm: f64,
}

pub(crate) fn unit(unit: Unit) -> &'static str {
    match unit {
        Unit::Percent | Unit::Ratio => "ratio",
        Unit::Count => "count",
        other => other.symbol(),
    }
}

pub(crate) fn figure(figure: &Figure) -> FigureDocument {
    FigureDocument { value: finite(figure.value), unit: unit(figure.unit) }
}

pub(crate) fn finding_document(report: &Report<'_>, finding: &Finding) -> FindingDocument {
    let said = codes::wording(finding, Language::English);
    FindingDocument {
        severity: finding.severity.word(),
        code: finding.code.as_str(),
        message: said.message,
        hint: said.hint,
        element: finding.element.as_ref().map(ToString::to_string),
        state: finding.state.as_ref().map(|state| state.kind.name()),
        calls: finding.state.as_ref().map(calls).unwrap_or_default(),
        value: finding.value.and_then(|value| finite(value.value)),
        limit: finding.limit.and_then(|limit| finite(limit.value)),
        unit: finding.value.or(finding.limit).map(|figure| unit(figure.unit)),
        origin: origin(report, &finding.origin),
        related: finding
            .related
            .iter()
            .filter_map(|related| {
                Some(RelatedDocument { role: related.role, origin: origin(report, &related.origin)? })
            })
            .collect(),
        grade: match finding.grade {
            DataGrade::Known => "known",
            DataGrade::Assumed(_) => "assumed",
        },
        assumed: match &finding.grade {
            DataGrade::Known => Vec::new(),
            DataGrade::Assumed(values) => values.clone(),
        },
        arguments: finding.arguments.iter().map(|(name, value)| (*name, argument(value))).collect(),
        remedies: finding.remedies.iter().map(|one| remedy(report, one)).collect(),
        accepted: finding.accepted.as_ref().map(|acceptance| AcceptanceDocument {
            reason: acceptance.reason.clone(),
            date: acceptance.date.clone(),
        }),
    }
}

fn argument(argument: &Argument) -> ArgumentDocument {
    match argument {
        Argument::Text(text) => ArgumentDocument::Text(text.clone()),
        Argument::Element(element) => ArgumentDocument::Text(element.to_string()),
        Argument::Texts(texts) => ArgumentDocument::Texts(texts.clone()),
        Argument::Words(words) => ArgumentDocument::Text(words.name().to_string()),
        Argument::ManyWords(words) => {
            let names = words.iter().map(|words| words.name().to_string());
            ArgumentDocument::Texts(names.collect())
        }
        Argument::Elements(elements) => {
            ArgumentDocument::Texts(elements.iter().map(ToString::to_string).collect())
        }
        Argument::Figure(value) => ArgumentDocument::Figure(figure(value)),
    }
}

fn origin(report: &Report<'_>, origin: &Origin) -> Option<OriginDocument> {
    let empty = OriginDocument {
        file: None,
        sheet: None,
        line: None,
        column: None,
        end_line: None,
        end_column: None,
        element: None,
        reading: None,
    };
    match origin {
        Origin::None => None,
        Origin::Text(_) => {
            let place::Place { file, line, column, end_line, end_column } = report.places.of(origin)?;
            Some(OriginDocument {
                file: Some(file),
                line: Some(line),
                column: Some(column),
                end_line: Some(end_line),
                end_column: Some(end_column),
                ..empty
            })
        }
        Origin::Cell { file, sheet, row, column } => Some(OriginDocument {
            file: report.places.file(*file).map(|file| file.name.clone()),
            sheet: Some(sheet.to_string()),
            line: Some(*row as usize),
            column: Some(*column as usize),
            ..empty
        }),
        Origin::Reading { element, number } => {
            Some(OriginDocument { element: Some(element.to_string()), reading: Some(*number), ..empty })
        }
    }
}

fn brought(one: &Brought) -> BroughtDocument {
    BroughtDocument {
        code: one.code.as_str(),
        severity: one.severity.word(),
        element: one.element.as_ref().map(ToString::to_string),
    }
}

pub(crate) fn remedy(report: &Report<'_>, remedy: &Remedy) -> RemedyDocument {
    RemedyDocument {
        kind: remedy.kind,
        message: wording::remedy(remedy, report.currency(), Language::English),
        value_after: remedy.value_after.and_then(|value| finite(value.figure.value)),
        cost: remedy.cost.map(|cost| cost.rounded().as_units()),
        priced: remedy.priced.map(|cost| cost.rounded().as_units()),
        labour_minutes: remedy.minutes.and_then(finite),
        changes: changes(&remedy.edit),
        brings: remedy.brings.iter().map(brought).collect(),
        mains_lost: remedy
            .mains_lost
            .iter()
            .map(|one| MainsLostDocument {
                what: one.what.name(),
                elements: one.elements.iter().map(ToString::to_string).collect(),
            })
            .collect(),
        measure: remedy.measure.as_ref().map(|measure| LoopMeasurementDocument {
            run: measure.run.to_string(),
            at: measure.at.to_string(),
            joined_at: measure.joined_at.to_string(),
            expected_ohm: measure.expected_ohm,
            most_ohm: measure.most_ohm,
        }),
    }
}
