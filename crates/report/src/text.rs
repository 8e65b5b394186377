//! The person's output: verdict first, then each supply with its runs, then the findings.
//!
//! Voltages and margins are rounded down and currents up, so that no shown figure is better than
//! the computed one.

use crate::jobs_text::Room;
use crate::paint::Look;
use crate::physics_text;
use crate::report::Report;
use crate::table::{Column, Set, Table, paragraph};
use crate::{caret, figures, jobs_text, template, wording};
use latchline_assess::jobs::excess;
use latchline_assess::{
    Assessment, DeviceResult, ExistingCable, RunSummary, SourceSummary, SupplySheet, Verdict, WorstCurrent,
};
use latchline_finding::{ElementId, Finding, Language, OperatingState, Severity};
use latchline_words::report::{Head, JobWords, Remark, severity};
use latchline_words::terms::Term;
use latchline_words::{codes, states};
use std::collections::BTreeSet;
use std::fmt::Write;

/// How much stands on the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Detail {
    /// What is to be done first. Of a site that fails only the runs that do; lines of files only where the text is at fault.
    FirstPage,
    /// Every run, every finding with the lines that it points at, every assumed value.
    Lines,
}

/// Lines of the first page of a site that fails, if it can be said in so many.
const MOST_LINES: usize = 80;

/// The report as text. A first page that is too long is said in fewer words: of what is further down, who has it and not how much.
pub fn render(report: &Report<'_>, look: &Look, detail: Detail) -> String {
    let mut text = page(report, look, detail, Room::Ample);
    if detail == Detail::FirstPage && report.jobs.is_some() && report.fails() {
        for room in [Room::Little, Room::Least] {
            if text.lines().count() > MOST_LINES {
                text = page(report, look, detail, room);
            }
        }
    }
    text
}

fn page(report: &Report<'_>, look: &Look, detail: Detail, room: Room) -> String {
    let little_room = room > Room::Ample;
    let mut blocks = vec![verdict(report, look)];
    let jobs = report.assessment.zip(report.jobs);
    if let Some((assessment, jobs)) = jobs {
        blocks.push(jobs_text::list(report, assessment, jobs, room, look));
    }
    let shortened = detail == Detail::FirstPage && jobs.is_some();
    let troubled =
        jobs.filter(|_| shortened && report.fails()).map(|(assessment, _)| Troubled::new(assessment));
    if let Some(assessment) = report.assessment {
        let supplies = supplies(assessment, look, troubled.as_ref());
        match little_room {
            // Their heads stand out without empty lines between.
            true => blocks.push(supplies.concat()),
            false => blocks.extend(supplies),
        }
    }
    blocks.extend(report.read.iter().map(|finding| in_full(report, finding, look)));
    match jobs {
        Some((assessment, jobs)) if shortened => {
            blocks.push(jobs_text::causes(report, assessment, jobs, room, look));
            let advice = jobs_text::advice(report, room, look);
            match blocks.last_mut().filter(|_| little_room) {
                Some(causes) => causes.push_str(&advice),
                None => blocks.push(advice),
            }
        }
        _ => blocks.extend(findings(report, look)),
    }
    if let Some(assessment) = report.assessment {
        blocks.push(not_judged(assessment, look));
        if troubled.is_none() {
            blocks.push(assumed(assessment, look));
        }
    }
    blocks.push(accepted(report, look));
    if let Some(assessment) = report.assessment {
        let file = report.file_in_command().filter(|_| troubled.is_some());
        let releases = file.as_ref().and_then(|_| releases(assessment));
        let rest =
            file.as_ref().map(|file| Remark::MoreOnThePage { file, assumed: assessment.assumed.len() });
        let lines = [Some(Remark::Caution), releases, rest].into_iter().flatten();
        let text: Vec<String> = lines.map(|line| line.say(look.language)).collect();
        let text = paragraph(&text.join(" "), 0, look.width);
        blocks.push(format!("{}\n", look.faint(text.trim_end())));
    }
    blocks.retain(|block| !block.trim().is_empty());
    blocks.join("\n")
}

/// Of a site that fails, the runs that give too much current or have a device that is low.
struct Troubled {
    runs: BTreeSet<ElementId>,
}

impl Troubled {
    fn new(assessment: &Assessment) -> Self {
        let mut runs = BTreeSet::new();
        let low = |device: &DeviceResult| device.worst.margin_v() < 0.0;
        runs.extend(
            assessment.devices.iter().filter(|device| low(device)).filter_map(|device| device.run.clone()),
        );
        let over = |run: &&RunSummary| match (run.current.current_a, run.current.limit_a) {
            (Some(current), Some(limit)) => current > limit,
            (None, _) => true,
            (Some(_), None) => false,
        };
        runs.extend(assessment.runs.iter().filter(over).map(|run| run.id.clone()));
        Troubled { runs }
    }

    fn has(&self, run: &RunSummary) -> bool {
        self.runs.contains(&run.id)
    }
}

fn verdict(report: &Report<'_>, look: &Look) -> String {
    let (first, second) = wording::verdict(report, look.language);
    let lines = paragraph(&format!("{}: {first}.", report.title()), 0, look.width);
    let lines = lines.trim_end();
    let mut text = match report.assessment.map(|assessment| &assessment.verdict) {
        None | Some(Verdict::Fails) => look.severity(Severity::Error, lines),
        _ if report.counts().errors > 0 => look.severity(Severity::Error, lines),
        Some(Verdict::NotJudged | Verdict::FailsAsAccepted) => look.severity(Severity::Warning, lines),
        Some(Verdict::Holds | Verdict::HoldsOnAssumedData) => look.good(lines),
    };
    text.push('\n');
    if let Some(second) = second {
        text.push_str(&paragraph(&format!("{}.", wording::capital(&second)), 0, look.width));
    }
    if let Some(assessment) = report.assessment.filter(|_| !report.fails()) {
        text.push_str(&left_open(assessment, look));
    }
    if let Some(jobs) = report.jobs {
        text.push_str(&jobs_text::in_danger(jobs, look));
    }
    text
}

/// One block per supply or regenerated output, and one that explains the figures. Of a site that fails, the runs in trouble only, the
/// others counted.
fn supplies(assessment: &Assessment, look: &Look, troubled: Option<&Troubled>) -> Vec<String> {
    let mut blocks: Vec<String> = assessment
        .sources
        .iter()
        .map(|source| {
            let runs: Vec<&RunSummary> =
                assessment.runs.iter().filter(|run| run.source == source.id).collect();
            let sheet = assessment.supply_sheets.iter().find(|sheet| sheet.supply == source.id);
            let is_bound = source.worst_device.is_some_and(|worst| assessment.devices[worst].worst.is_bound);
            let mut text = source_lines(source, sheet, is_bound, troubled.is_some(), look);
            if runs.is_empty() {
                let _ = writeln!(text, "  {}", Head::NoRuns.say(look.language));
            }
            let (shown, quiet): (Vec<&RunSummary>, Vec<&RunSummary>) =
                runs.into_iter().partition(|run| troubled.is_none_or(|troubled| troubled.has(run)));
            if !shown.is_empty() {
                text.push_str(&run_table(assessment, &shown, look).render(look));
            }
            text.push_str(&runs_within(assessment, &quiet, look));
            text.push_str(&physics_text::of_source(assessment, &source.id, troubled.is_some(), look));
            text
        })
        .collect();
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

/// Runs that are left out of the table, with the least margin on them.
fn runs_within(assessment: &Assessment, runs: &[&RunSummary], look: &Look) -> String {
    // Only what hangs on these runs themselves: beyond them may be one that is shown.
    let own =
        |device: &&DeviceResult| device.run_index.is_some_and(|own| runs.iter().any(|run| run.run == own));
    let devices = assessment.devices.iter().filter(own);
    let Some(least) = devices.min_by(|a, b| a.worst.margin_v().total_cmp(&b.worst.margin_v())) else {
        return String::new();
    };
    let line = Remark::RunsWithin {
        runs: runs.len(),
        margin: &figures::volts(least.worst.margin_v(), look.language),
        device: &template::plain(least.id.as_str()),
    };
    paragraph(&line.say(look.language), 2, look.width)
}

/// Names of existing cables in one line of a first page of a site that fails.
const MOST_CABLES: usize = 5;

/// Which existing cables can stay; of many of one kind only the first where there is `little_room`.
fn existing(assessment: &Assessment, little_room: bool, look: &Look) -> String {
    let named = |is_it: &dyn Fn(&ExistingCable) -> bool| {
        let runs = assessment.runs.iter().filter(|run| run.existing.as_ref().is_some_and(is_it));
        let names = runs.map(|run| {
            let name = template::plain(run.id.as_str());
            match &run.existing {
                Some(ExistingCable::Found(codes)) if !little_room => {
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
    let found = named(&|one| matches!(one, ExistingCable::Found(_)));
    let open = named(&|one| *one == ExistingCable::NotJudged);
    let lines = [
        (&stay, Remark::CanStay { runs: &stay }),
        (&unmeasured, Remark::CanStayIfMeasured { runs: &unmeasured }),
        (&found, Remark::ExistingFound { runs: &found }),
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
fn releases(assessment: &Assessment) -> Option<Remark<'static>> {
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
    if let Some(margin) = source.loading_margin.filter(|margin| margin.is_finite() && !briefly) {
        let margin = &look.decimals(figures::rounded_down(margin, 2));
        let bound = is_bound.then(|| Term::AtLeast.both());
        let bound = bound.as_ref().map(|bound| bound.of(language));
        facts.push(Remark::LoadingMargin { margin, bound }.say(language));
    }
    let head = format!("{} ({})", look.bold(&id), template::plain(&source.model));
    format!("{head}\n{}", paragraph(&facts.join(", "), 2, look.width))
}

/// How long the battery of a supply lasts, in a few words.
fn battery_words(sheet: &SupplySheet, look: &Look) -> String {
    let language = look.language;
    let asked = sheet.asked_hours.map(|hours| look.decimals(figures::trimmed(hours, 1)));
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

fn run_table(assessment: &Assessment, runs: &[&RunSummary], look: &Look) -> Table {
    let word = |head: Head| head.say(look.language);
    let column = |group: &str, head: &str, label: &str, set| Column::new(group, head, label, set);
    let mut table = Table::new(
        vec![
            column("", word(Head::From), "{}", Set::Words),
            column("", word(Head::Run), word(Head::RunNamed), Set::Words),
            column(word(Head::Stations), word(Head::On), word(Head::OnIt), Set::Number),
            column("", word(Head::Cable), "{}", Set::Words),
            column("", "m", "{} m", Set::Number),
            column(word(Head::Current), "A", "{} A", Set::Number),
            column("", word(Head::Limit), word(Head::LimitAmperes), Set::Number),
            column(word(Head::WorstDevice), "", word(Head::WorstNamed), Set::Words),
            column("", "V", "{} V", Set::Number),
            column("", word(Head::Limit), word(Head::LimitVolts), Set::Number),
            column("", word(Head::Margin), word(Head::MarginVolts), Set::Number),
            column("", word(Head::State), "{}", Set::Words),
        ],
        2,
    );
    for run in runs {
        let device = run.worst_device.and_then(|index| assessment.devices.get(index));
        let [name, voltage, limit, margin, state] = device_cells(device, look);
        table.row(vec![
            template::plain(run.from.as_str()),
            template::plain(run.id.as_str()),
            run.stations.to_string(),
            template::plain(&run.cable),
            figures::metres(run.length_m, look.language),
            current_cell(&run.current, look),
            run.current.limit_a.map(|limit| look.decimals(figures::fixed(limit, 2))).unwrap_or_default(),
            name,
            voltage,
            limit,
            margin,
            state,
        ]);
    }
    table
}

fn current_cell(current: &WorstCurrent, look: &Look) -> String {
    current.current_a.filter(|current| current.is_finite()).map_or_else(
        || String::from(Head::None.say(look.language)),
        |current| figures::amperes(current, look.language),
    )
}

/// Name, voltage, limit, margin and state of a device.
fn device_cells(device: Option<&DeviceResult>, look: &Look) -> [String; 5] {
    let Some(device) = device else { return Default::default() };
    let worst = &device.worst;
    let none = || String::from(Head::None.say(look.language));
    let (voltage, margin) = match worst.adverse_v.filter(|voltage| voltage.is_finite()) {
        None => (none(), none()),
        Some(voltage) => {
            let sign = if worst.is_bound { "≥" } else { "" };
            let shown = figures::rounded_down(voltage, 2);
            (format!("{sign}{shown}"), figures::rounded_down(worst.margin_v(), 2))
        }
    };
    [
        template::plain(device.id.as_str()),
        look.decimals(voltage),
        look.decimals(figures::fixed(worst.limit_v, 2)),
        look.decimals(margin),
        states::few_words(&worst.state, look.language),
    ]
}

/// Findings of the rules: the worst of a code in full, the others a line each.
fn findings(report: &Report<'_>, look: &Look) -> Vec<String> {
    let mut blocks: Vec<String> = Vec::new();
    let mut rest = &report.judged[..];
    while let Some(first) = rest.first() {
        let same =
            rest.iter().take_while(|other| (other.severity, other.code) == (first.severity, first.code));
        let (group, others) = rest.split_at(same.count());
        rest = others;
        blocks.push(finding_group(report, group, look));
    }
    blocks
}

fn in_full(report: &Report<'_>, finding: &Finding, look: &Look) -> String {
    let wording = codes::wording(finding, look.language);
    caret::in_full(&report.places, finding, &wording, report.currency(), look) + "\n"
}

fn finding_group(report: &Report<'_>, group: &[&Finding], look: &Look) -> String {
    let Some(worst) =
        (0..group.len()).max_by(|a, b| excess(group[*a]).total_cmp(&excess(group[*b])).then(b.cmp(a)))
    else {
        return String::new();
    };
    let mut text = in_full(report, group[worst], look);
    if group.len() > 1 {
        let more = Remark::MoreOf { count: group.len() - 1, code: group[worst].code.as_str() };
        let _ = writeln!(text, "  {}", more.say(look.language));
    }
    for (_, other) in group.iter().enumerate().filter(|(index, _)| *index != worst) {
        let mut line = codes::wording(other, look.language).message;
        if let Some(place) = report.places.short(&other.origin, look.language) {
            line = format!("{line} ({place})");
        }
        if let Some(remedy) = other.remedies.first() {
            let remedy = &wording::remedy(remedy, report.currency(), look.language);
            line = Remark::RemedyBehind { message: &line, remedy }.say(look.language);
        }
        text.push_str(&paragraph(&line, 4, look.width));
    }
    text
}

/// Kinds of what was not judged that are named at the head of the page.
const MOST_NAMED_AT_HEAD: usize = 3;

/// What was not judged, in a line, for the head of the page; what to enter stands in the block of its own.
fn left_open(assessment: &Assessment, look: &Look) -> String {
    let mut kinds: Vec<(&str, Vec<String>)> = Vec::new();
    for missing in &assessment.not_judged {
        let title = codes::of(missing.code.as_str()).map_or("", |words| words.title(look.language));
        let what = template::plain(&missing.missing.say(look.language));
        match kinds.iter_mut().find(|(known, _)| *known == title) {
            Some((_, all)) => all.push(what),
            None => kinds.push((title, vec![what])),
        }
    }
    if kinds.is_empty() {
        return String::new();
    }
    let more = kinds.len().saturating_sub(MOST_NAMED_AT_HEAD);
    let named: Vec<String> = kinds
        .iter()
        .take(MOST_NAMED_AT_HEAD)
        .map(|(title, what)| match what.as_slice() {
            [only] => format!("{title} ({only})"),
            [first, others @ ..] => format!("{title} ({first}, +{})", others.len()),
            [] => String::from(*title),
        })
        .collect();
    let line = Remark::LeftOpen { what: &named.join("; "), more: (more > 0).then_some(more) };
    paragraph(&line.say(look.language), 0, look.width)
}

fn not_judged(assessment: &Assessment, look: &Look) -> String {
    let language = look.language;
    let mut text = String::new();
    for missing in &assessment.not_judged {
        let title = codes::of(missing.code.as_str()).map(|words| words.title(language));
        let title = title.map_or_else(String::new, |title| format!(" ({title})"));
        let line = format!("{}{title}: {}", missing.code, wording::not_judged(missing, language));
        text.push_str(&paragraph(&line, 2, look.width));
    }
    for state in assessment.states.iter().filter(|state| !state.exact) {
        let name = match language {
            Language::English => String::from(state.kind.name()),
            Language::German => states::name(&OperatingState::from(state.kind), language),
        };
        let sets = &figures::fixed(state.call_sets, 0);
        let line = Remark::SearchBounded { state: &name, sets }.say(language);
        text.push_str(&paragraph(&line, 2, look.width));
    }
    let left = assessment.remedies_not_sought;
    if left > 0 {
        let remark = match left {
            1 => Remark::RemediesNotSoughtToOne,
            count => Remark::RemediesNotSought { count },
        };
        text.push_str(&paragraph(&remark.say(language), 2, look.width));
    }
    if text.is_empty() {
        return text;
    }
    let how = Remark::HowToGetIt.say(language);
    let can_be_stated = assessment.not_judged.iter().any(|one| one.missing.can_be_stated());
    let how = if !can_be_stated { String::new() } else { paragraph(&how, 2, look.width) };
    format!("{}\n{text}{how}", look.severity(Severity::Warning, Head::NotJudged.say(language)))
}

fn assumed(assessment: &Assessment, look: &Look) -> String {
    if assessment.assumed.is_empty() {
        return String::new();
    }
    let values: Vec<String> = assessment.assumed.iter().map(|value| template::plain(value)).collect();
    let line = Remark::AssumedValues { values: &values.join(", ") }.say(look.language);
    format!("{}\n{}", look.bold(Head::AssumedValues.say(look.language)), paragraph(&line, 2, look.width))
}

fn accepted(report: &Report<'_>, look: &Look) -> String {
    if report.accepted.is_empty() {
        return String::new();
    }
    let mut text = format!("{}\n", look.bold(Head::Accepted.say(look.language)));
    for finding in &report.accepted {
        let wording = codes::wording(finding, look.language);
        let reason = finding.accepted.as_ref().map_or_else(String::new, |acceptance| {
            format!("{}, {}", template::plain(&acceptance.date), template::plain(&acceptance.reason))
        });
        let severity = severity(finding.severity, look.language);
        let line = format!("{severity} {}: {} ({reason})", finding.code, wording.message);
        text.push_str(&paragraph(&line, 2, look.width));
    }
    text
}
