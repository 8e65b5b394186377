//! Runs as a table, each with its worst device.

use crate::paint::Look;
use crate::table::{Column, Set, Table};
use crate::{figures, template};
use latchline_assess::{Assessment, DeviceResult, RunSummary, WorstCurrent};
use latchline_words::report::Head;
use latchline_words::states;

/// The runs, a row each; heads say what a figure is of where the page is too narrow for columns.
pub(super) fn run_table(assessment: &Assessment, runs: &[&RunSummary], look: &Look) -> Table {
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
            run.current.limit_a.map(|limit| figures::limit_amperes(limit, look.language)).unwrap_or_default(),
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
