//! The system summary: what is there, and what the check says.

use super::column::column;
use crate::language::{Sentence, Word};
use crate::locale::Rounding;
use crate::options::Part;
use crate::subject::Subject;
use crate::table::{Cell, Table};
use latchline_finding::Unit;
use latchline_site::catalogue::BoxRole;
use latchline_words::codes::title_of;
use latchline_words::key_names::assumed_values;
use latchline_words::template::all_names;

/// Builds it.
pub fn table(subject: &Subject<'_>) -> Table {
    let locale = &subject.locale;
    let columns = vec![
        column(locale, Word::About, 16),
        column(locale, Word::Item, 40),
        column(locale, Word::Value, 24),
        column(locale, Word::Remark, 60),
    ];
    let mut table = Table::new(Part::Summary, locale.word(Word::SummaryTitle), columns);
    for caution in super::lines::cautions(locale) {
        table.note(caution);
    }
    verdict(subject, &mut table);
    assumed(subject, &mut table);
    counts(subject, &mut table);
    for source in &subject.assessment.sources {
        source_rows(subject, source, &mut table);
    }
    states(subject, &mut table);
    releases(subject, &mut table);
    table
}

/// Whether releases outside of calls are in the states.
fn releases(subject: &Subject<'_>, table: &mut Table) {
    if let Some((at_once, doors)) = subject.assessment.releases_at_once {
        let value = match at_once {
            0 => subject.locale.cell(Word::NotCounted),
            _ => Cell::text(subject.locale.say(&Sentence::WorstAtOnce { at_once, doors })),
        };
        add(subject, table, "", Word::ReleasesOutsideCalls, value, subject.locale.word(Word::ByWhatMeans));
    }
}

fn add(
    subject: &Subject<'_>,
    table: &mut Table,
    about: &str,
    item: Word,
    value: Cell,
    remark: impl Into<String>,
) {
    table.row(vec![Cell::text(about), subject.locale.cell(item), value, Cell::text(remark)]);
}

fn verdict(subject: &Subject<'_>, table: &mut Table) {
    let locale = &subject.locale;
    table.heading(locale.word(Word::Verdict));
    add(subject, table, "", Word::Verdict, Cell::text(locale.verdict(subject)), "");
    for gap in &subject.assessment.not_judged {
        let needs = locale.say(&Sentence::Needs { what: &gap.missing.on_paper(locale.language) });
        let what = title_of(gap.code.as_str(), locale.language);
        add(subject, table, "", Word::NotJudged, Cell::text(what), needs);
    }
    if let Some(device) = subject.assessment.tightest_device().map(|index| &subject.assessment.devices[index])
    {
        let margin = locale.quantity(device.worst.margin_v(), Unit::Volt, Rounding::Down);
        let state = locale.worst_state(&device.worst);
        add(subject, table, device.id.as_str(), Word::LeastMargin, margin, state);
    }
}

/// The values that the verdict rests on and nobody has stated or measured.
fn assumed(subject: &Subject<'_>, table: &mut Table) {
    let values = assumed_values(&subject.assessment.assumed, subject.locale.language);
    if values.is_empty() {
        return;
    }
    table.heading(subject.locale.word(Word::AssumedValues));
    for (what, parts) in values {
        let of = all_names(&parts, subject.locale.language);
        add(subject, table, "", Word::AssumedValue, Cell::text(what), of);
    }
}

fn counts(subject: &Subject<'_>, table: &mut Table) {
    let (site, locale) = (subject.site, &subject.locale);
    table.heading(locale.word(Word::WhatIsThere));
    add(
        subject,
        table,
        "",
        Word::Family,
        Cell::text(site.family().head.title.of(locale.language)),
        site.family.value.clone(),
    );
    let boxes = |role| site.boxes.iter().filter(|item| site.box_model(item).role.value == role).count();
    for (item, count) in [
        (Word::Buildings, site.buildings.len()),
        (Word::Dwellings, site.dwellings.len()),
        (Word::Stations, site.stations.len()),
        (Word::Entrances, site.entrances.len()),
        (Word::ManagementStations, site.management.len()),
        (Word::Supplies, site.supplies.len()),
        (Word::Distributors, boxes(BoxRole::Distributor)),
        (Word::BranchBoxes, boxes(BoxRole::BranchBox)),
        (Word::Runs, site.runs.len()),
    ] {
        add(subject, table, "", item, Cell::count(count), "");
    }
    let length = |existing: bool| {
        let cables = subject.wiring.cables.iter().filter(|cable| cable.laid.is_existing == existing);
        cables.map(|cable| cable.laid.length.as_metres() * f64::from(cable.laid.side_by_side)).sum::<f64>()
    };
    add(subject, table, "", Word::NewCable, locale.length_laid(length(false)), "");
    add(subject, table, "", Word::ExistingCable, locale.length_laid(length(true)), "");
}

fn source_rows(subject: &Subject<'_>, source: &latchline_assess::SourceSummary, table: &mut Table) {
    let locale = &subject.locale;
    let id = source.id.as_str();
    table.heading(format!("{id}  {}", source.model));
    add(subject, table, id, Word::Stations, Cell::count(source.stations), "");
    let limit = |value: Option<f64>, unit| {
        value.map_or(String::new(), |value| {
            locale.say(&Sentence::AtMost { value: &locale.in_words(value, unit) })
        })
    };
    let state = locale.state(&source.current.state);
    let current = locale.quantity_or_dash(source.current.current_a, Unit::Ampere, Rounding::Up);
    let of_limit = limit(source.current.limit_a, Unit::Ampere);
    let remark = if of_limit.is_empty() { state } else { format!("{of_limit}; {state}") };
    add(subject, table, id, Word::LargestCurrent, current, remark);
    if let Some(in_hand) =
        source.current.limit_a.zip(source.current.current_a).map(|(limit, now)| limit - now)
    {
        add(
            subject,
            table,
            id,
            Word::CurrentInHand,
            locale.quantity(in_hand, Unit::Ampere, Rounding::Down),
            "",
        );
    }
    if let Some(power) = source.power_w {
        let remark = limit(source.rated_power_w, Unit::Watt);
        add(subject, table, id, Word::LargestPower, locale.quantity(power, Unit::Watt, Rounding::Up), remark);
    }
    if let Some(in_hand) = source.rated_power_w.zip(source.power_w).map(|(rated, now)| rated - now) {
        add(subject, table, id, Word::PowerInHand, locale.quantity(in_hand, Unit::Watt, Rounding::Down), "");
    }
    if let Some(first) = &source.first_limit {
        let value = locale.quantity(first.factor, Unit::Ratio, Rounding::Down);
        let remark = format!("{}; {}", locale.figure(first.limit), locale.state(&first.state));
        add(subject, table, first.element.as_str(), Word::FirstLimit, value, remark);
    }
    if let Some(margin) = source.loading_margin {
        let value = locale.quantity(margin, Unit::Ratio, Rounding::Down);
        add(subject, table, id, Word::LoadingMargin, value, locale.word(Word::LoadingMarginMeaning));
    }
    if let Some(worst) = source.worst_device.map(|index| &subject.assessment.devices[index]) {
        let value = locale.quantity(worst.worst.margin_v(), Unit::Volt, Rounding::Down);
        add(subject, table, worst.id.as_str(), Word::LeastMargin, value, locale.worst_state(&worst.worst));
    }
}

fn states(subject: &Subject<'_>, table: &mut Table) {
    let locale = &subject.locale;
    table.heading(locale.word(Word::StatesSolved));
    for state in &subject.assessment.states {
        let how = match state.call_sets {
            sets if sets <= 1.0 => locale.word(Word::OneSet).to_string(),
            sets => {
                let of = format!("{sets:.0}");
                let found = locale.say(&Sentence::SetsWeighed { of: &of });
                let exact = locale.word(if state.exact { Word::SearchComplete } else { Word::SearchBounded });
                format!("{found}; {exact}")
            }
        };
        let name = Cell::text(locale.state(&state.kind.into()));
        add(subject, table, "", Word::State, name, how);
    }
}
