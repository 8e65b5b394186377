//! Supplies with their runs, and how to read them.

use super::alike::Names;
use super::run_table::run_table;
use super::troubled::Troubled;
use crate::jobs_text::Room;
use crate::paint::Look;
use crate::table::paragraph;
use crate::{figures, physics_text, template};
use latchline_assess::{
    Assessment, ExistingCable, RunSummary, SourceSummary, SupplySheet, WorstCurrent, least_margin,
};
use latchline_finding::{Figure, Unit};
use latchline_words::report::{Head, JobWords, Remark};
use latchline_words::states;
use latchline_words::terms::Term;
use std::collections::BTreeSet;
use std::fmt::Write;

/// One block per supply or regenerated output, and one that explains the figures. Of a site that fails, the runs in trouble only, the
/// others counted; where there is little room, what is said of a supply that is like one before is said once.
pub(super) fn supplies(
    assessment: &Assessment,
    look: &Look,
    troubled: Option<&Troubled>,
    room: Room,
) -> Vec<String> {
    let blocks = assessment.sources.iter().map(|source| {
        let runs: Vec<&RunSummary> = assessment.runs.iter().filter(|run| run.source == source.id).collect();
        let sheet = assessment.supply_sheets.iter().find(|sheet| sheet.supply == source.id);
        let is_bound = source.worst_device.is_some_and(|worst| assessment.devices[worst].worst.is_bound);
        let mut text = source_lines(source, sheet, is_bound, troubled.is_some(), look);
        if runs.is_empty() {
            let _ = writeln!(text, "  {}", Head::NoRuns.say(look.language));
        }
        let (shown, quiet): (Vec<&RunSummary>, Vec<&RunSummary>) =
            runs.into_iter().partition(|run| troubled.is_none_or(|troubled| troubled.has(run)));
        let (shown, alike) = of_least_margin(assessment, shown, room);
        if !shown.is_empty() {
            text.push_str(&run_table(assessment, &shown, look).render(look));
        }
        text.push_str(&runs_in_trouble(&alike, look));
        text.push_str(&runs_within(assessment, &quiet, shown.is_empty() && alike.is_empty(), look));
        text.push_str(&physics_text::of_source(assessment, &source.id, troubled.is_some(), look));
        text
    });
    let mut blocks = match room {
        Room::Ample => blocks.collect(),
        _ => each_once(assessment, blocks, look),
    };
    let known: BTreeSet<_> = assessment.sources.iter().map(|source| &source.id).collect();
    let others: Vec<&RunSummary> =
        assessment.runs.iter().filter(|run| !known.contains(&run.source)).collect();
    if !others.is_empty() {
        let head = look.bold(Head::OtherRuns.say(look.language));
        blocks.push(format!("{head}\n{}", run_table(assessment, &others, look).render(look)));
    }
    // What is too weak is among the findings.
    if troubled.is_none() {
        blocks.push(physics_text::signal(assessment, look));
    }
    if !assessment.runs.is_empty() && troubled.is_none() {
        blocks.push(key(assessment, look));
    }
    // A question of its own: its answer stands before the figures.
    blocks.insert(0, existing(assessment, troubled.is_some(), look));
    blocks
}

/// What is said of each supply; of one that is like one before only that it is.
fn each_once(assessment: &Assessment, blocks: impl Iterator<Item = String>, look: &Look) -> Vec<String> {
    let names = Names::of(assessment);
    let mut told: Vec<(String, &SourceSummary)> = Vec::new();
    let sources = assessment.sources.iter();
    let of = |(text, source): (String, _)| {
        let source: &SourceSummary = source;
        let bare = names.without(&text);
        if let Some((_, first)) = told.iter().find(|(known, _)| *known == bare) {
            let worst =
                source.worst_device.map(|worst| template::plain(assessment.devices[worst].id.as_str()));
            let (supply, like) = (template::plain(source.id.as_str()), template::plain(first.id.as_str()));
            let line = Remark::AsTheSupply { supply: &supply, like: &like, worst: worst.as_deref() };
            return paragraph(&line.say(look.language), 0, look.width);
        }
        told.push((bare, source));
        text
    };
    blocks.zip(sources).map(of).collect()
}

/// Runs in trouble that the shortest page shows of one supply.
const MOST_RUNS: usize = 4;

/// The runs that are shown, on the shortest page those with the least margin only, and the others.
fn of_least_margin<'a>(
    assessment: &Assessment,
    mut runs: Vec<&'a RunSummary>,
    room: Room,
) -> (Vec<&'a RunSummary>, Vec<&'a RunSummary>) {
    if room < Room::Least || runs.len() <= MOST_RUNS + 1 {
        return (runs, Vec::new());
    }
    let margin = |run: &RunSummary| {
        run.worst_device.map_or(f64::INFINITY, |worst| assessment.devices[worst].worst.margin_v())
    };
    runs.sort_by(|a, b| margin(a).total_cmp(&margin(b)));
    let others = runs.split_off(MOST_RUNS);
    (runs, others)
}

/// Runs in trouble that have no row.
fn runs_in_trouble(runs: &[&RunSummary], look: &Look) -> String {
    if runs.is_empty() {
        return String::new();
    }
    let names: Vec<String> = runs.iter().map(|run| template::plain(run.id.as_str())).collect();
    let line = Remark::RunsInTrouble { runs: runs.len(), names: &names.join(", ") };
    paragraph(&line.say(look.language), 2, look.width)
}

/// Runs that are left out of the table, with the least margin on them; `are_all`: none stands in it.
fn runs_within(assessment: &Assessment, runs: &[&RunSummary], are_all: bool, look: &Look) -> String {
    // Only what hangs on these runs themselves: beyond them may be one that is shown.
    let devices = &assessment.devices;
    let own =
        |device: &usize| devices[*device].run_index.is_some_and(|own| runs.iter().any(|run| run.run == own));
    let Some(least) = least_margin(devices, (0..devices.len()).filter(own)).map(|least| &devices[least])
    else {
        return String::new();
    };
    let runs = runs.len();
    let margin = &*figures::volts(least.worst.margin_v(), look.language);
    let device = &*template::plain(least.id.as_str());
    let line = match are_all {
        true => Remark::AllRunsWithin { runs, margin, device },
        false => Remark::RunsWithin { runs, margin, device },
    };
    paragraph(&line.say(look.language), 2, look.width)
}

/// Names of existing cables in one line of a first page of a site that fails.
const MOST_CABLES: usize = 5;

/// Which existing cables can stay; of many of one kind only the first where there is `little_room`.
fn existing(assessment: &Assessment, little_room: bool, look: &Look) -> String {
    let named = |is_it: &dyn Fn(&ExistingCable) -> bool| {
        let runs =
            assessment.runs.iter().filter(|run| run.existing.as_ref().is_some_and(|one| is_it(&one.verdict)));
        let names = runs.map(|run| {
            let name = template::plain(run.id.as_str());
            match run.existing.as_ref().map(|one| &one.verdict) {
                Some(
                    ExistingCable::Fails(codes)
                    | ExistingCable::Warned(codes)
                    | ExistingCable::ReadsOtherwise(codes),
                ) if !little_room => {
                    let codes: Vec<&str> = codes.iter().map(|code| code.as_str()).collect();
                    format!("{name} ({})", codes.join(", "))
                }
                _ => name,
            }
        });
        let mut names: Vec<String> = names.collect();
        let most = if little_room { MOST_CABLES } else { names.len() };
        let more = names.len().saturating_sub(most);
        names.truncate(most);
        let names = names.join(", ");
        match more {
            0 => names,
            more => JobWords::NamesAndMore { names: &names, more }.say(look.language),
        }
    };
    let stay = named(&|one| *one == ExistingCable::CanStay);
    let unmeasured = named(&|one| *one == ExistingCable::CanStayIfMeasured);
    let warned = named(&|one| matches!(one, ExistingCable::Warned(_)));
    let otherwise = named(&|one| matches!(one, ExistingCable::ReadsOtherwise(_)));
    let fails = named(&|one| matches!(one, ExistingCable::Fails(_)));
    let open = named(&|one| matches!(one, ExistingCable::NotJudged(_)));
    let lines = [
        (&stay, Remark::CanStay { runs: &stay }),
        (&unmeasured, Remark::CanStayIfMeasured { runs: &unmeasured }),
        (&warned, Remark::ExistingWarned { runs: &warned }),
        (&otherwise, Remark::ExistingReadsOtherwise { runs: &otherwise }),
        (&fails, Remark::ExistingFails { runs: &fails }),
        (&open, Remark::ExistingNotJudged { runs: &open }),
    ];
    let lines = lines.iter().filter(|(runs, _)| !runs.is_empty());
    lines.map(|(_, words)| paragraph(&words.say(look.language), 0, look.width)).collect()
}

/// How to read the tables.
fn key(assessment: &Assessment, look: &Look) -> String {
    let mut text = Remark::Key.say(look.language);
    if assessment.devices.iter().any(|device| device.worst.is_bound) {
        text.push(' ');
        text.push_str(&Remark::KeyOfBounds.say(look.language));
    }
    if let Some(releases) = releases(assessment) {
        text.push(' ');
        text.push_str(&releases.say(look.language));
    }
    look.faint(paragraph(&text, 0, look.width).trim_end()) + "\n"
}

/// How many releases outside calls the states hold; `None` where there is no lock.
pub(super) fn releases(assessment: &Assessment) -> Option<Remark<'static>> {
    assessment.releases_at_once.map(|(at_once, doors)| match at_once {
        0 => Remark::ReleasesNotCounted,
        _ if at_once == doors => Remark::ReleasesCounted,
        1 => Remark::OneReleaseCounted { doors },
        _ => Remark::SomeReleasesCounted { at_once, doors },
    })
}

/// `is_bound`: whether the figures of its worst device are lower bounds.
fn source_lines(
    source: &SourceSummary,
    sheet: Option<&SupplySheet>,
    is_bound: bool,
    briefly: bool,
    look: &Look,
) -> String {
    let id = template::plain(source.id.as_str());
    let language = look.language;
    let share = source.count_share.map(|share| figures::rounded_up(share * 100.0, 0));
    let mut facts =
        vec![Remark::StationsOn { stations: source.stations, share: share.as_deref() }.say(language)];
    if let Some((set_v, delivered_v)) = source.set_below_v {
        let volts = |voltage_v: f64| Figure::new(voltage_v, Unit::Volt);
        facts.insert(0, Remark::SetBelow { set: volts(set_v), delivered: volts(delivered_v) }.say(language));
    }
    facts.push(current_words(&source.current, look));
    match (source.power_w.filter(|power| power.is_finite()), source.rated_power_w) {
        (Some(power), Some(rated)) => {
            let rated = &look.decimals(figures::trimmed(rated, 1));
            facts.push(Remark::WattsOf { power: &figures::watts(power, language), rated }.say(language));
        }
        (Some(power), None) => {
            facts.push(Remark::Watts { power: &figures::watts(power, language) }.say(language))
        }
        (None, _) => {}
    }
    if let Some(standby) = source.standby_current_a.filter(|current| current.is_finite() && !briefly) {
        facts.push(Remark::StandbyCurrent { current: &figures::amperes(standby, language) }.say(language));
    }
    facts.extend(sheet.map(|sheet| battery_words(sheet, look)));
    let bound = is_bound.then(|| Term::AtLeast.both());
    let bound = bound.as_ref().map(|bound| bound.of(language));
    if let Some(first) = source.first_limit.as_ref().filter(|_| !briefly) {
        facts.push(
            Remark::FirstLimit {
                factor: &look.decimals(figures::rounded_down(first.factor, 2)),
                bound,
                limit: &look.figure(first.limit),
                element: &template::plain(first.element.as_str()),
                state: &states::few_words(&first.state, language),
            }
            .say(language),
        );
    }
    if let Some(margin) = source.loading_margin.filter(|margin| margin.is_finite() && !briefly) {
        let margin = &look.decimals(figures::rounded_down(margin, 2));
        facts.push(Remark::LoadingMargin { margin, bound }.say(language));
    }
    let head = format!("{} ({})", look.bold(&id), template::plain(&source.model));
    format!("{head}\n{}", paragraph(&facts.join(", "), 2, look.width))
}

/// How long the battery of a supply lasts, in a few words.
fn battery_words(sheet: &SupplySheet, look: &Look) -> String {
    let language = look.language;
    let asked =
        sheet.asked_hours.filter(|hours| *hours > 0.0).map(|hours| look.decimals(figures::trimmed(hours, 1)));
    let battery = match &sheet.battery {
        None => return Remark::NoBattery { asked: asked.as_deref() }.say(language),
        Some(Err(_)) => return Remark::BatteryNotJudged.say(language),
        Some(Ok(battery)) => battery,
    };
    let Some(shortest) = battery.shortest() else { return Remark::BatteryNotJudged.say(language) };
    let calls = match &battery.calls {
        Some(calls) => {
            let per_hour = &look.decimals(figures::trimmed(calls.per_hour, 1));
            let minutes = &look.decimals(figures::trimmed(calls.duration_s / 60.0, 1));
            match per_hour.as_str() {
                "1" => Remark::OneCallAnHour { minutes }.say(language),
                calls => Remark::CallsAnHour { calls, minutes }.say(language),
            }
        }
        None if battery.calls_collapse => Remark::CallsCollapse.say(language),
        None => Remark::NoCallCounted.say(language),
    };
    let hours = &figures::battery_hours(shortest.hours, language);
    Remark::BatteryHours { hours, asked: asked.as_deref(), calls: &calls }.say(language)
}

fn current_words(current: &WorstCurrent, look: &Look) -> String {
    let state = &states::few_words(&current.state, look.language);
    let up = |value: f64| figures::amperes(value, look.language);
    match (current.current_a.filter(|current| current.is_finite()), current.limit_a) {
        (Some(found), Some(limit)) => {
            let limit = &look.decimals(figures::trimmed(limit, 3));
            Remark::CurrentOf { current: &up(found), limit, state }.say(look.language)
        }
        (Some(found), None) => Remark::CurrentIn { current: &up(found), state }.say(look.language),
        (None, _) => Remark::NoOperatingPoint { state }.say(look.language),
    }
}
