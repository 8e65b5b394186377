//! Readings from the phones as the file that `locate` takes.

use latchline_assess::{Reading, ReadingPlace};
use latchline_finding::shown;
use latchline_handover::commissioning::Taken;
use latchline_locate::{MOST_INSULATION_OHM, place_name, state_name};
use latchline_phone::{Comparison, Judgement, Side, WorkPlan};
use latchline_site::addresses::{assign, read_found_list, reconcile};
use latchline_site::edit::quoted;
use latchline_site::model::Site;
use std::collections::BTreeSet;
use std::fmt::Write as _;

/// The file, and how many readings are in it.
pub(super) fn locate_file(site: &Site, plan: &WorkPlan, found: &Comparison<'_>) -> (String, usize) {
    let title = shown::name(&plan.site).to_string();
    let mut out = format!("# Readings from site: {title}, revision {}.\n", shown::name(&plan.revision));
    if let Some(list) = found.list {
        let _ = writeln!(out, "\nfound = [{}]", answering(site, list).join(", "));
    }
    let mut count = 0;
    for one in &found.judged {
        let Some(row) = one.taken.and_then(|taken| Row::new(site, taken, one)) else { continue };
        count += 1;
        let judged = match one.side {
            Side::In => "in range",
            Side::Low => "too low",
            Side::High => "too high",
            Side::Unknown => "not judged",
        };
        let by = shown::name(&one.event.by).to_string();
        let _ = writeln!(
            out,
            "\n[[reading]]                 # {judged}{}",
            if by.is_empty() { by } else { format!(", {by}") }
        );
        row.write(&mut out);
    }
    (out, count)
}

/// Stations that answered: as planned, or, as far as can be told, under a wrong number.
fn answering(site: &Site, list: &str) -> Vec<String> {
    let found = reconcile(site, &assign(site), &read_found_list(list).devices);
    let wrong = (found.unexpected.iter().map(|one| &one.explanations))
        .chain(found.duplicated.iter().map(|one| &one.explanations))
        .filter_map(|explanations| explanations.iter().find(|one| one.best))
        .map(|one| one.station);
    let stations: BTreeSet<usize> = found.present.iter().copied().chain(wrong).collect();
    stations.into_iter().map(|station| quoted(site.stations[station].id.as_str())).collect()
}

struct Row {
    at: String,
    to: Option<String>,
    quantity: Option<&'static str>,
    state: String,
    value: String,
    is_sure: bool,
}

impl Row {
    /// `None` for what fault finding does not know: a source with nothing connected.
    fn new(site: &Site, taken: &Taken, one: &Judgement<'_>) -> Option<Row> {
        let value = match one.value {
            Some(value) => format!("{value} {}", one.step.unit),
            None if one.step.unit == "Mohm" => format!("{} Mohm", MOST_INSULATION_OHM / 1e6),
            None => String::from("open"),
        };
        let run = |run: usize| site.runs[run].id.to_string();
        let alone = |index: usize, quantity| (run(index), None, Some(quantity), String::new());
        let (at, to, quantity, state) = match taken {
            Taken::Insulation { run } => alone(*run, "insulation"),
            Taken::Predicted(reading) => match reading {
                Reading::Voltage { at, state } => {
                    (place_name(site, *at), None, None, state_name(site, state, Some(*at)))
                }
                Reading::Current { at, state } => {
                    (place_name(site, *at), None, Some("current"), state_name(site, state, Some(*at)))
                }
                Reading::Drop { run, first, last, state } => {
                    let sections = &site.runs[*run].sections;
                    let from = match first.checked_sub(1) {
                        None => ReadingPlace::Run(*run),
                        Some(before) => sections[before].to.into(),
                    };
                    let to = place_name(site, sections[*last].to.into());
                    (place_name(site, from), Some(to), Some("drop"), state_name(site, state, None))
                }
                Reading::LoopResistance { run } => alone(*run, "loop"),
                Reading::Capacitance { run } => alone(*run, "capacitance"),
                Reading::OpenCircuitVoltage { .. } => return None,
            },
        };
        // The page has asked about what looked like a slip; what is out of range is meant.
        Some(Row { at, to, quantity, state, value, is_sure: one.side != Side::In })
    }

    fn write(&self, out: &mut String) {
        let mut line = |key: &str, text: &str| {
            let _ = writeln!(out, "{key} = {}", quoted(text));
        };
        line("at", &self.at);
        self.to.iter().for_each(|to| line("to", to));
        self.quantity.iter().for_each(|quantity| line("quantity", quantity));
        if !self.state.is_empty() {
            line("state", &self.state);
        }
        line("value", &self.value);
        if self.is_sure {
            let _ = writeln!(out, "sure = true");
        }
    }
}
