//! The sheet of one supply.

use super::english;
use super::{calculation, caution, fact, findings};
use crate::paint::Look;
use crate::physics_text::power_return;
use crate::report::Report;
use crate::table::{Column, Set, Table};
use crate::{figures, template};
use latchline_assess::Rounding;
use latchline_assess::supply::{BatteryFigures, SupplySheet};
use latchline_finding::{Figure, OperatingState, Unit};

/// The sheet of the supply with this name; `None` if there is none in the assessment.
pub fn supply(report: &Report<'_>, name: &str, look: &Look) -> Option<String> {
    let sheet = report.assessment?.supply_sheets.iter().find(|sheet| sheet.supply.as_str() == name)?;
    let mut blocks = vec![head(sheet, look)];
    match &sheet.battery {
        Some(Ok(battery)) => blocks.push(hours(battery, look)),
        Some(Err(missing)) => {
            let line = format!("not judged; needs {}", missing.join(", "));
            blocks.push(fact("Battery", &line, look));
        }
        None => blocks.push(fact("Battery", "none: everything stops with the mains", look)),
    }
    blocks.push(mains(report, sheet, look));
    if !sheet.calculation.is_empty() {
        let lines = calculation(&sheet.calculation, look);
        blocks.push(format!("{}\n{lines}", look.bold("Calculation")));
    }
    blocks.push(findings(report, &sheet.supply, look));
    blocks.push(caution(look));
    blocks.retain(|block| !block.is_empty());
    Some(blocks.join("\n"))
}

fn head(sheet: &SupplySheet, look: &Look) -> String {
    let name = template::plain(sheet.supply.as_str());
    let mut text = format!("{}\n", look.bold(&format!("Supply {name}")));
    text.push_str(&fact("Model", &sheet.model, look));
    if !sheet.place.is_empty() {
        text.push_str(&fact("Place", &sheet.place, look));
    }
    let celsius = |value: f64| english::sentence(Figure::new(value, Unit::Celsius));
    let ambient = match (sheet.ambient_c, sheet.ambient_limit_c) {
        (Some(ambient), Some(limit)) => format!("{}, at most {}", celsius(ambient), celsius(limit)),
        (Some(ambient), None) => celsius(ambient),
        (None, Some(limit)) => format!("not stated, at most {}", celsius(limit)),
        (None, None) => String::from("not stated"),
    };
    text.push_str(&fact("Cupboard", &ambient, look));
    if let Some(mains) = &sheet.mains {
        let watts = |value: f64| english::sentence(Figure::new(value, Unit::Watt));
        let state = english::in_words(&OperatingState::from(mains.state));
        let mut line = format!("{} {state}", watts(mains.output_w));
        if mains.charging_w > 0.0 {
            let waits = if mains.charging_waits { " (what is left of the rated power)" } else { "" };
            line.push_str(&format!("; {} for charging{waits}", watts(mains.charging_w)));
        }
        text.push_str(&fact("Load", &line, look));
        if !mains.missing.is_empty() {
            let line = format!("not all known; needs {}", mains.missing.join(", "));
            text.push_str(&fact("Mains", &line, look));
        }
    }
    text
}

/// Mains lost, and back.
fn mains(report: &Report<'_>, sheet: &SupplySheet, look: &Look) -> String {
    let battery = sheet.battery.as_ref().and_then(|battery| battery.as_ref().ok());
    let mut text = String::new();
    if let Some(shortest) = battery.and_then(BatteryFigures::shortest) {
        let hours = english::shown(Figure::new(shortest.hours, Unit::Hour), Rounding::Down);
        let state = english::few_words(&OperatingState::from(shortest.state));
        let line = format!("the battery takes over without a gap; at least {hours} in {state}");
        text.push_str(&fact("Mains lost", &line, look));
    }
    let starts = report.assessment.map_or(&[][..], |assessment| &assessment.start_up);
    if let Some(start) = starts.iter().find(|start| start.source == sheet.supply) {
        let mut line = format!("after a failure that outlasts it: {}", power_return(start, look));
        if battery.is_none() {
            line = power_return(start, look);
        }
        if let Some(recharge) = battery.and_then(|battery| battery.recharge_hours) {
            let hours = english::shown(Figure::new(recharge, Unit::Hour), Rounding::Up);
            line.push_str(&format!("; four fifths are back in the battery {hours} later"));
        }
        if sheet.mains.as_ref().is_some_and(|mains| mains.charging_waits) {
            line.push_str(", more where the load leaves less");
        }
        text.push_str(&fact("Mains back", &line, look));
    }
    text
}

fn hours(battery: &BatteryFigures, look: &Look) -> String {
    let amp_hours = |value: f64| english::sentence(Figure::new(value, Unit::AmpereHour));
    let rated = english::sentence(Figure::new(battery.rated_hours, Unit::Hour));
    let mut text = format!("{}\n", look.bold("Battery"));
    let count = match battery.batteries {
        1 => String::new(),
        count => format!("{count} in parallel, together "),
    };
    let line = format!(
        "{count}{} at the {rated} rate, of which {} are counted on",
        amp_hours(battery.capacity_ah),
        english::shown(Figure::new(battery.effective_ah, Unit::AmpereHour), Rounding::Down)
    );
    text.push_str(&fact("Capacity", &line, look));
    if let Some(required) = battery.required_hours {
        let hours = english::sentence(Figure::new(required, Unit::Hour));
        text.push_str(&fact("Asked for", &format!("{hours} of standby"), look));
    }
    let mut table = Table::new(
        vec![
            Column::new("", "State", "{}", Set::Words),
            Column::new("", "Load W", "{} W", Set::Number),
            Column::new("", "Battery A", "{} A from the battery", Set::Number),
            Column::new("", "Hours", "{} h", Set::Number),
        ],
        2,
    );
    for load in &battery.loads {
        table.row(vec![
            english::few_words(&OperatingState::from(load.state)),
            figures::rounded_up(load.bus_power_w, 1),
            figures::rounded_up(load.battery_current_a, 3),
            figures::rounded_down(load.hours, 1),
        ]);
    }
    if !battery.loads.is_empty() {
        text.push_str(&table.render(look));
    }
    text
}
