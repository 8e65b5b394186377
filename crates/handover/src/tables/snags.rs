//! The snag list: what the check found, what could not be judged, and room for what is found on site.

use super::column::column;
use crate::language::{Sentence, Word};
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Choice, Role, Table};
use latchline_finding::{Argument, Finding, Severity};
use latchline_site::codes::ADDRESS_DUPLICATE;
use latchline_words::codes::title_of;

/// Empty lines for what is found on site.
const EMPTY_LINES: usize = 25;

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let columns = vec![
        column(locale, Word::Line, 5),
        column(locale, Word::Kind, 10),
        column(locale, Word::Where, 16).with_role(Role::Names),
        column(locale, Word::Snag, 90).with_role(Role::Names),
        column(locale, Word::Value, 10),
        column(locale, Word::Limit, 10),
        column(locale, Word::State, 17),
        column(locale, Word::DateDone, 12),
        column(locale, Word::By, 10),
    ];
    let mut table = Table::new(Part::Snags, locale.word(Word::SnagsTitle), columns);
    table.note(locale.word(Word::SnagsNote));
    let mut number = 0;
    if !subject.findings.is_empty() || !subject.assessment.not_judged.is_empty() {
        table.heading(locale.word(Word::SnagsFound));
    }
    for finding in &subject.findings {
        number += 1;
        let kind = match finding.severity {
            Severity::Error => Word::Error,
            Severity::Warning => Word::Warning,
            Severity::Advice => Word::Advice,
        };
        let mut cells = finding_cells(subject, finding, number, kind);
        cells.extend([Cell::WriteIn, Cell::WriteIn]);
        table.row(cells);
    }
    for gap in &subject.assessment.not_judged {
        number += 1;
        let elements: Vec<&str> = gap.elements.iter().map(|element| element.as_str()).collect();
        table.row(vec![
            Cell::count(number),
            locale.cell(Word::NotJudged),
            Cell::text(elements.join(", ")),
            Cell::text(format!(
                "{}: {}",
                title_of(gap.code.as_str(), locale.language),
                locale.say(&Sentence::Needs { what: &gap.missing.on_paper(locale.language) })
            )),
            Cell::Empty,
            Cell::Empty,
            Cell::Empty,
            Cell::WriteIn,
            Cell::WriteIn,
        ]);
    }
    let accepted: Vec<&Finding> =
        subject.assessment.findings.iter().filter(|finding| finding.accepted.is_some()).collect();
    if !accepted.is_empty() {
        table.heading(locale.word(Word::SnagsAccepted));
        for finding in accepted {
            number += 1;
            let mut cells = finding_cells(subject, finding, number, Word::Accepted);
            if let Some(acceptance) = &finding.accepted {
                cells[6] = Cell::text(&acceptance.reason);
                cells.push(Cell::Date(acceptance.date.clone()));
            }
            table.row(cells);
        }
    }
    table.heading(locale.word(Word::SnagsOnSite));
    for _ in 0..EMPTY_LINES {
        number += 1;
        let mut cells = vec![Cell::count(number)];
        cells.push(Cell::Choice(Choice::Gravity));
        cells.extend(std::iter::repeat_n(Cell::WriteIn, 7));
        table.row(cells);
    }
    table
}

/// What the check found and nobody has accepted: at what, and what.
pub fn standing_findings(subject: &Subject<'_>) -> Vec<(String, String)> {
    let place =
        |finding: &Finding| finding.element.as_ref().map_or("", |element| element.as_str()).to_string();
    subject.findings.iter().map(|finding| (place(finding), subject.locale.finding(finding))).collect()
}

/// Where a finding is: of two devices with one number both.
pub fn places_of(finding: &Finding) -> Vec<&str> {
    let other = match finding.argument("other") {
        Some(Argument::Element(other)) if finding.code == ADDRESS_DUPLICATE => Some(other),
        _ => None,
    };
    finding.element.iter().chain(other).map(|element| element.as_str()).collect()
}

fn finding_cells(subject: &Subject<'_>, finding: &Finding, number: usize, kind: Word) -> Vec<Cell> {
    let locale = &subject.locale;
    let [value, limit] = locale.figures_of(finding).map(|figure| figure.map_or(Cell::Empty, Cell::text));
    vec![
        Cell::count(number),
        locale.cell(kind),
        Cell::text(places_of(finding).join(", ")),
        Cell::text(locale.finding(finding)),
        value,
        limit,
        finding.state.as_ref().map_or(Cell::Empty, |state| Cell::text(locale.state(state))),
    ]
}
