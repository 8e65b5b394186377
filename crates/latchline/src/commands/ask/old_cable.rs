//! `latchline ask old-cable`: whether the cable that is in the walls can stay.

use super::super::written::{TextOrJson, WrittenArguments};
use super::answer::Answer;
use crate::load::{self, Opened};
use crate::refusal::Result;
use crate::surroundings::{Colour, Surroundings};
use clap::Args;
use latchline_assess::{Assessment, ExistingCable, ExistingRun, RunSummary};
use latchline_finding::{ElementId, Figure, Unit};
use latchline_reach::telephone::{OldCable, old_cable};
use latchline_report::Look;
use latchline_report::table::{Column, Set, Table, paragraph};
use latchline_site::model::Site;
use latchline_words::commands::{AskWords, OldCableHead, OldCableWords};
use latchline_words::figures;
use serde::Serialize;
use std::io::{Read, Write};
use std::path::PathBuf;
use std::process::ExitCode;

/// Which site is asked about.
#[derive(Debug, Args)]
pub struct OldCableArguments {
    /// The site file, its old runs marked with `existing = true`; `-` reads standard input
    site: PathBuf,
    #[command(flatten)]
    written: WrittenArguments<TextOrJson>,
}

/// Runs the question.
pub(super) fn run(
    arguments: &OldCableArguments,
    surroundings: &Surroundings,
    input: &mut dyn Read,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    let written = &arguments.written;
    written.result.refuse(&[&arguments.site])?;
    let Opened { session, files, .. } = load::open(&arguments.site, input)?;
    written.result.refuse(&files)?;
    let view = session.view();
    let look = surroundings.look(Colour::Never, false).in_language(written.language.language());
    let (Some(assessment), Some(site)) = (view.assessment()?, view.site()) else {
        return super::super::refuse(&view, &look);
    };
    let found = old_cable(site, assessment, look.language);
    let mut text: String = found.says.iter().map(|line| paragraph(line, 0, look.width)).collect();
    if !found.runs.is_empty() {
        text.push('\n');
        text.push_str(&rows(site, assessment, &found, &look));
        text.push_str(&paragraph(&OldCableWords::Key.say(look.language), 0, look.width));
    }
    text.push_str(&paragraph(&AskWords::Caution.say(look.language), 0, look.width));
    let figures = OldCableFigures::of(site, assessment, &found);
    let (says, can_stay) = (found.says.clone(), found.can_stay);
    Answer::drawn("old-cable", says, text, can_stay, figures)?.put(written, &files, output)
}

/// A row a run.
fn rows(site: &Site, assessment: &Assessment, found: &OldCable<'_>, look: &Look) -> String {
    let language = look.language;
    let head = |word: OldCableHead| word.say(language);
    let labelled = |word: OldCableHead| format!("{} {{}}", head(word));
    let loops = |word: OldCableHead| format!("{} {} {{}}", head(OldCableHead::Loop), head(word));
    let columns = vec![
        Column::new("", head(OldCableHead::Run), "{}", Set::Words),
        Column::new("", head(OldCableHead::Stays), labelled(OldCableHead::Stays), Set::Words),
        Column::new("", head(OldCableHead::Cable), "{}", Set::Words),
        Column::new("", "mm²", "{} mm²", Set::Number),
        Column::new(
            head(OldCableHead::Loop),
            head(OldCableHead::Measured),
            loops(OldCableHead::Measured),
            Set::Number,
        ),
        Column::new("", head(OldCableHead::Expected), loops(OldCableHead::Expected), Set::Number),
        Column::new("", head(OldCableHead::Insulation), labelled(OldCableHead::Insulation), Set::Number),
        Column::new("", head(OldCableHead::Margin), labelled(OldCableHead::Margin), Set::Number),
        Column::new("", head(OldCableHead::Signal), labelled(OldCableHead::Signal), Set::Number),
    ];
    let mut table = Table::new(columns, 0);
    for (run, existing) in &found.runs {
        let stays = match existing.verdict {
            ExistingCable::CanStay => OldCableHead::Yes,
            ExistingCable::Warned(_) => OldCableHead::Warning,
            ExistingCable::ReadsOtherwise(_) => OldCableHead::LookFirst,
            ExistingCable::CanStayIfMeasured => OldCableHead::MeasureFirst,
            ExistingCable::Fails(_) => OldCableHead::No,
            ExistingCable::NotJudged(_) => OldCableHead::NotJudged,
        };
        let measured = &site.runs[run.run].measured;
        let missing = || head(OldCableHead::NotMeasured).to_string();
        let resistance = |ohm: f64| figures::sentence(Figure::new(ohm, Unit::Ohm), language);
        let loop_read = measured.loop_resistance.as_ref().map(|one| one.value.as_ohms());
        let insulation = measured.insulation.as_ref().map(|one| one.value.as_ohms());
        let area = existing.conductor.map(|size| figures::trimmed(size.area_mm2, 2));
        let signal = existing.signal.as_ref().map(|signal| {
            let loss = figures::decibels(signal.loss_db, language);
            let budget = figures::decimals(figures::trimmed(signal.budget_db, 1), language);
            format!("{loss} / {budget}")
        });
        table.row(vec![
            run.id.to_string(),
            head(stays).to_string(),
            run.cable.clone(),
            area.map_or(String::new(), |area| figures::decimals(area, language)),
            loop_read.map_or_else(missing, |ohm| figures::ohms(ohm, language)),
            figures::ohms(existing.expected_loop_ohm, language),
            insulation.map_or_else(missing, resistance),
            margin_v(assessment, run).map_or(String::new(), |margin| figures::volts(margin, language)),
            signal.unwrap_or_default(),
        ]);
    }
    table.render(look)
}

/// The least margin at a device behind a run; `None` where there is none or no operating point.
fn margin_v(assessment: &Assessment, run: &RunSummary) -> Option<f64> {
    run.worst_device
        .map(|device| assessment.devices[device].worst.margin_v())
        .filter(|margin| margin.is_finite())
}

#[derive(Serialize)]
struct OldCableFigures<'a> {
    runs: Vec<OldRun<'a>>,
    /// Errors of the site that do not concern old cable.
    other_errors: usize,
}

#[derive(Serialize)]
struct OldRun<'a> {
    run: &'a str,
    verdict: &'static str,
    /// Codes of what stands against it, or of what could not be judged.
    codes: Vec<&'static str>,
    /// Runs that its bus collapses on and that it is judged apart from.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    apart_from: Vec<&'a str>,
    cable: &'a str,
    length_m: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    cross_section_mm2: Option<f64>,
    loop_expected_ohm: f64,
    /// Missing where it was not measured.
    #[serde(skip_serializing_if = "Option::is_none")]
    loop_ohm: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    capacitance_f: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    insulation_ohm: Option<f64>,
    /// The least margin at a device behind it.
    #[serde(skip_serializing_if = "Option::is_none")]
    margin_v: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    signal: Option<OldSignal<'a>>,
}

#[derive(Serialize)]
struct OldSignal<'a> {
    band: &'a str,
    caller: &'a str,
    station: &'a str,
    loss_db: f64,
    budget_db: f64,
}

impl<'a> OldCableFigures<'a> {
    fn of(site: &Site, assessment: &Assessment, found: &OldCable<'a>) -> Self {
        let of_run = |(run, existing): &(&'a RunSummary, &'a ExistingRun)| {
            let measured = &site.runs[run.run].measured;
            let codes = match &existing.verdict {
                ExistingCable::Fails(codes)
                | ExistingCable::Warned(codes)
                | ExistingCable::ReadsOtherwise(codes)
                | ExistingCable::NotJudged(codes) => codes.iter().map(|code| code.as_str()).collect(),
                ExistingCable::CanStay | ExistingCable::CanStayIfMeasured => Vec::new(),
            };
            OldRun {
                run: run.id.as_str(),
                verdict: existing.verdict.word(),
                codes,
                apart_from: existing
                    .apart
                    .iter()
                    .flat_map(|apart| apart.causes.iter().map(ElementId::as_str))
                    .collect(),
                cable: &run.cable,
                length_m: run.length_m,
                cross_section_mm2: existing.conductor.map(|size| size.area_mm2),
                loop_expected_ohm: existing.expected_loop_ohm,
                loop_ohm: measured.loop_resistance.as_ref().map(|one| one.value.as_ohms()),
                capacitance_f: measured.capacitance.as_ref().map(|one| one.value.as_farads()),
                insulation_ohm: measured.insulation.as_ref().map(|one| one.value.as_ohms()),
                margin_v: margin_v(assessment, run),
                signal: existing.signal.as_ref().map(|signal| OldSignal {
                    band: &signal.band,
                    caller: signal.caller.as_str(),
                    station: signal.station.as_str(),
                    loss_db: signal.loss_db,
                    budget_db: signal.budget_db,
                }),
            }
        };
        OldCableFigures { runs: found.runs.iter().map(of_run).collect(), other_errors: found.other_errors }
    }
}
