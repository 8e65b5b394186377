//! The person's output: verdict first, then each supply with its runs, then the findings.
//!
//! Voltages and margins are rounded down and currents up, so that no shown figure is better than
//! the computed one.

use crate::paint::Look;
use crate::physics_text;
use crate::report::Report;
use crate::table::{Column, Set, Table, paragraph};
use crate::{caret, english, figures, state_words, template};
use latchline_assess::{Assessment, DeviceResult, RunSummary, SourceSummary, Verdict, WorstCurrent};
use latchline_finding::{Finding, Severity};
use std::collections::BTreeSet;
use std::fmt::Write;

const CAUTION: &str = "A calculation, not a certificate. Isolate and prove dead before wiring; \
                       local codes and licensed practice prevail.";

/// The whole report as text.
pub fn render(report: &Report<'_>, look: &Look) -> String {
    let mut blocks = vec![verdict(report, look)];
    if let Some(assessment) = report.assessment {
        blocks.extend(supplies(assessment, look));
    }
    blocks.extend(findings(report, look));
    if let Some(assessment) = report.assessment {
        blocks.push(not_judged(report, assessment, look));
        blocks.push(assumed(assessment, look));
    }
    blocks.push(accepted(report, look));
    if report.assessment.is_some() {
        blocks.push(look.faint(paragraph(CAUTION, 0, look.width).trim_end()) + "\n");
    }
    blocks.retain(|block| !block.trim().is_empty());
    blocks.join("\n")
}

fn verdict(report: &Report<'_>, look: &Look) -> String {
    let (first, second) = english::verdict(report);
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
        text.push_str(&paragraph(&format!("{}.", english::capital(&second)), 0, look.width));
    }
    text
}

/// One block per supply or regenerated output, and one that explains the figures.
fn supplies(assessment: &Assessment, look: &Look) -> Vec<String> {
    let mut blocks: Vec<String> = assessment
        .sources
        .iter()
        .map(|source| {
            let runs: Vec<&RunSummary> =
                assessment.runs.iter().filter(|run| run.source == source.id).collect();
            let mut text = source_lines(source, look);
            if runs.is_empty() {
                text.push_str("  no runs\n");
            } else {
                text.push_str(&run_table(assessment, &runs).render(look));
            }
            text.push_str(&physics_text::of_source(assessment, &source.id, look));
            text
        })
        .collect();
    let known: BTreeSet<_> = assessment.sources.iter().map(|source| &source.id).collect();
    let others: Vec<&RunSummary> =
        assessment.runs.iter().filter(|run| !known.contains(&run.source)).collect();
    if !others.is_empty() {
        blocks.push(format!("{}\n{}", look.bold("Other runs"), run_table(assessment, &others).render(look)));
    }
    blocks.push(physics_text::signal(assessment, look));
    if !assessment.runs.is_empty() {
        blocks.push(key(assessment, look));
    }
    blocks
}

/// How to read the tables.
fn key(assessment: &Assessment, look: &Look) -> String {
    let mut text = String::from(
        "V is the worst device's voltage with every tolerance against it, rounded down; A the largest \
         current, rounded up. Spare: further stations of the last one's model that the end of the run \
         carries.",
    );
    if assessment.devices.iter().any(|device| device.worst.is_bound) {
        text.push_str(" ≥ marks a certified lower bound.");
    }
    look.faint(paragraph(&text, 0, look.width).trim_end()) + "\n"
}

fn source_lines(source: &SourceSummary, look: &Look) -> String {
    let id = template::plain(source.id.as_str());
    let mut facts = vec![format!("{} station{}", source.stations, plural(source.stations))];
    facts.push(current_words(&source.current));
    match (source.power_w.filter(|power| power.is_finite()), source.rated_power_w) {
        (Some(power), Some(rated)) => {
            facts.push(format!("{} of {} W", figures::rounded_up(power, 1), figures::trimmed(rated, 1)))
        }
        (Some(power), None) => facts.push(format!("{} W", figures::rounded_up(power, 1))),
        (None, _) => {}
    }
    if let Some(standby) = source.standby_current_a.filter(|current| current.is_finite()) {
        facts.push(format!("{} A in standby", figures::rounded_up(standby, 2)));
    }
    if let Some(margin) = source.loading_margin.filter(|margin| margin.is_finite()) {
        facts.push(format!("no operating point beyond {} times the load", figures::rounded_down(margin, 2)));
    }
    let head = format!("{} ({})", look.bold(&id), template::plain(&source.model));
    format!("{head}\n{}", paragraph(&facts.join(", "), 2, look.width))
}

fn current_words(current: &WorstCurrent) -> String {
    let state = state_words::few_words(&current.state);
    match (current.current_a.filter(|current| current.is_finite()), current.limit_a) {
        (Some(found), Some(limit)) => {
            format!("{} of {} A ({state})", figures::rounded_up(found, 2), figures::trimmed(limit, 3))
        }
        (Some(found), None) => format!("{} A ({state})", figures::rounded_up(found, 2)),
        (None, _) => format!("no operating point ({state})"),
    }
}

fn run_table(assessment: &Assessment, runs: &[&RunSummary]) -> Table {
    let column = |group: &str, head: &str, label: &str, set| Column::new(group, head, label, set);
    let mut table = Table::new(
        vec![
            column("", "From", "{}", Set::Words),
            column("", "Run", "run {}", Set::Words),
            column("Stations", "on", "{} on it", Set::Number),
            column("", "spare", "{} spare", Set::Number),
            column("", "Cable", "{}", Set::Words),
            column("", "m", "{} m", Set::Number),
            column("Current", "A", "{} A", Set::Number),
            column("", "limit", "limit {} A", Set::Number),
            column("Worst device", "", "worst {}", Set::Words),
            column("", "V", "{} V", Set::Number),
            column("", "limit", "limit {} V", Set::Number),
            column("", "margin", "margin {} V", Set::Number),
            column("", "state", "{}", Set::Words),
        ],
        2,
    );
    for run in runs {
        let device = run.worst_device.and_then(|index| assessment.devices.get(index));
        let [name, voltage, limit, margin, state] = device_cells(device);
        table.row(vec![
            template::plain(run.from.as_str()),
            template::plain(run.id.as_str()),
            run.stations.to_string(),
            run.stations_in_hand.map(|count| count.to_string()).unwrap_or_default(),
            template::plain(&run.cable),
            figures::fixed(run.length_m, 1),
            current_cell(&run.current),
            run.current.limit_a.map(|limit| figures::fixed(limit, 2)).unwrap_or_default(),
            name,
            voltage,
            limit,
            margin,
            state,
        ]);
    }
    table
}

fn current_cell(current: &WorstCurrent) -> String {
    current
        .current_a
        .filter(|current| current.is_finite())
        .map_or_else(|| String::from("none"), |current| figures::rounded_up(current, 2))
}

/// Name, voltage, limit, margin and state of a device.
fn device_cells(device: Option<&DeviceResult>) -> [String; 5] {
    let Some(device) = device else { return Default::default() };
    let worst = &device.worst;
    let (voltage, margin) = match worst.adverse_v.filter(|voltage| voltage.is_finite()) {
        None => (String::from("none"), String::from("none")),
        Some(voltage) => {
            let sign = if worst.is_bound { "≥" } else { "" };
            let shown = figures::rounded_down(voltage, 2);
            (format!("{sign}{shown}"), figures::rounded_down(worst.margin_v(), 2))
        }
    };
    [
        template::plain(device.id.as_str()),
        voltage,
        figures::fixed(worst.limit_v, 2),
        margin,
        state_words::few_words(&worst.state),
    ]
}

/// Mistakes in the files each in full and in their order; findings of the rules by cause: the worst
/// of a code in full, the others a line each.
fn findings(report: &Report<'_>, look: &Look) -> Vec<String> {
    let mut blocks: Vec<String> = report.read.iter().map(|finding| in_full(report, finding, look)).collect();
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
    let wording = english::wording(finding, report.code_doc(finding.code.as_str()));
    caret::in_full(&report.places, finding, &wording, look) + "\n"
}

fn finding_group(report: &Report<'_>, group: &[&Finding], look: &Look) -> String {
    let Some(worst) =
        (0..group.len()).max_by(|a, b| excess(group[*a]).total_cmp(&excess(group[*b])).then(b.cmp(a)))
    else {
        return String::new();
    };
    let mut text = in_full(report, group[worst], look);
    if group.len() > 1 {
        let _ = writeln!(text, "  and {} more of {}:", group.len() - 1, group[worst].code);
    }
    for (_, other) in group.iter().enumerate().filter(|(index, _)| *index != worst) {
        let mut line = english::wording(other, report.code_doc(other.code.as_str())).message;
        if let Some(place) = report.places.short(&other.origin) {
            line = format!("{line} ({place})");
        }
        if let Some(remedy) = other.remedies.first() {
            line = format!("{line}; remedy: {}", english::remedy(remedy));
        }
        text.push_str(&paragraph(&line, 4, look.width));
    }
    text
}

/// How far a figure is beyond its limit, relative to it; without an operating point it is furthest.
fn excess(finding: &Finding) -> f64 {
    match (finding.value, finding.limit) {
        (Some(value), _) if !value.value.is_finite() => f64::INFINITY,
        (Some(value), Some(limit)) if limit.value != 0.0 => ((value.value - limit.value) / limit.value).abs(),
        (Some(value), Some(_)) => value.value.abs(),
        _ => 0.0,
    }
}

fn not_judged(report: &Report<'_>, assessment: &Assessment, look: &Look) -> String {
    let mut text = String::new();
    for missing in &assessment.not_judged {
        let title = report.code_doc(missing.code.as_str()).map_or("", |doc| doc.title);
        let title = if title.is_empty() { String::new() } else { format!(" ({title})") };
        let line = format!("{}{title}: {}", missing.code, english::not_judged(missing));
        text.push_str(&paragraph(&line, 2, look.width));
    }
    for state in assessment.states.iter().filter(|state| !state.exact) {
        let line = format!(
            "{}: the search of {} sets of calls was not completed; a worse set than the one shown may exist",
            state.kind.name(),
            figures::fixed(state.call_sets, 0)
        );
        text.push_str(&paragraph(&line, 2, look.width));
    }
    let left = assessment.remedies_not_sought;
    if left > 0 {
        let (others, these) = if left == 1 { ("one finding", "it") } else { ("the other findings", "them") };
        let count = if left == 1 { String::new() } else { format!(" ({left})") };
        let line = format!(
            "remedies: not looked for to {others}{count}; `latchline fix SITE --finding N` looks for {these}"
        );
        text.push_str(&paragraph(&line, 2, look.width));
    }
    if text.is_empty() {
        return text;
    }
    let how = "Take what is missing from the part's datasheet, or measure it, and add it to the catalogue.";
    let how = if assessment.not_judged.is_empty() { String::new() } else { paragraph(how, 2, look.width) };
    format!("{}\n{text}{how}", look.severity(Severity::Warning, "Not judged"))
}

fn assumed(assessment: &Assessment, look: &Look) -> String {
    if assessment.assumed.is_empty() {
        return String::new();
    }
    let values: Vec<String> = assessment.assumed.iter().map(|value| template::plain(value)).collect();
    let line = format!(
        "{}. The verdict is as good as these: replace them by a datasheet's figure or a measurement.",
        values.join(", ")
    );
    format!("{}\n{}", look.bold("Assumed values"), paragraph(&line, 2, look.width))
}

fn accepted(report: &Report<'_>, look: &Look) -> String {
    if report.accepted.is_empty() {
        return String::new();
    }
    let mut text = format!("{}\n", look.bold("Accepted"));
    for finding in &report.accepted {
        let wording = english::wording(finding, report.code_doc(finding.code.as_str()));
        let reason = finding.accepted.as_ref().map_or_else(String::new, |acceptance| {
            format!("{}, {}", template::plain(&acceptance.date), template::plain(&acceptance.reason))
        });
        let line = format!("{} {}: {} ({reason})", finding.severity.word(), finding.code, wording.message);
        text.push_str(&paragraph(&line, 2, look.width));
    }
    text
}

fn plural(count: usize) -> &'static str {
    if count == 1 { "" } else { "s" }
}
