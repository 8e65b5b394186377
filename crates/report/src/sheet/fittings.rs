//! What hangs on a door station besides locks: modules, lights, alarm inputs; and what all of it draws.

use super::english;
use super::{calculation, words};
use crate::paint::Look;
use crate::table::{Column, Set, Table, paragraph};
use crate::{figures, template};
use latchline_assess::door::alarm::AlarmSheet;
use latchline_assess::door::sheet::DoorSheet;
use latchline_finding::{Figure, Unit};

/// Names shown of those who are told; the rest are counted.
const MOST_NAMES: usize = 4;

pub(super) fn modules(sheet: &DoorSheet, look: &Look) -> String {
    if sheet.modules.modules.is_empty() {
        return String::new();
    }
    let mut table = Table::new(
        vec![
            Column::new("", "No.", "{}", Set::Number),
            Column::new("", "Module", "{}", Set::Words),
            Column::new("", "Kind", "{}", Set::Words),
            Column::new("Current mA", "day", "{} mA by day", Set::Number),
            Column::new("", "night", "{} mA by night", Set::Number),
        ],
        2,
    );
    for module in &sheet.modules.modules {
        table.row(vec![
            module.position.to_string(),
            template::plain(&module.model),
            words::accessory(module.kind).to_string(),
            figures::rounded_up(module.current_a * 1e3, 0),
            figures::rounded_up(module.night_current_a * 1e3, 0),
        ]);
    }
    let lines = calculation(&sheet.modules.calculation(), look);
    format!("{}\n{}{lines}", look.bold("Modules in their chain, by address"), table.render(look))
}

pub(super) fn lights(sheet: &DoorSheet, look: &Look) -> String {
    if sheet.lights.is_empty() {
        return String::new();
    }
    let mut table = Table::new(
        vec![
            Column::new("", "No.", "{}", Set::Number),
            Column::new("", "Light", "{}", Set::Words),
            Column::new("", "Kind", "{}", Set::Words),
            Column::new("", "Fed from", "from {}", Set::Words),
            Column::new("", "On", "on {}", Set::Words),
            Column::new("Rated", "V", "{} V", Set::Number),
            Column::new("", "mA", "{} mA", Set::Number),
        ],
        2,
    );
    for light in &sheet.lights {
        table.row(vec![
            light.number.to_string(),
            template::plain(&light.model),
            words::light(light.kind).to_string(),
            words::light_feed(light.feed).to_string(),
            words::lit(light.lit).to_string(),
            figures::trimmed(light.rated_v, 1),
            figures::rounded_up(light.current_a * 1e3, 0),
        ]);
    }
    let output = sheet.light_output.as_ref().map(|output| std::slice::from_ref(&output.calculation));
    let lines = output.map_or(String::new(), |lines| calculation(lines, look));
    format!("{}\n{}{lines}", look.bold("Lights"), table.render(look))
}

pub(super) fn alarm_inputs(sheet: &DoorSheet, look: &Look) -> String {
    if sheet.alarm_inputs.is_empty() {
        return String::new();
    }
    let mut text = format!("{}\n", look.bold("Alarm inputs"));
    for input in &sheet.alarm_inputs {
        text.push_str(&paragraph(&alarm_line(input), 2, look.width));
        match (&input.calculation, &input.cable) {
            (Some(line), _) => text.push_str(&calculation(std::slice::from_ref(line), look)),
            (None, Err(missing)) => {
                let line = format!("loop not judged; needs {}", missing.join(", "));
                text.push_str(&paragraph(&template::plain(&line), 4, look.width));
            }
            (None, Ok(_)) => {}
        }
    }
    text
}

fn alarm_line(input: &AlarmSheet) -> String {
    let mut line =
        format!("{}. {}: contact {}", input.number, words::alarm(input.kind), words::at_rest(input.contact));
    line.push_str(match (input.end_of_line_resistor, input.cut_passes_unnoticed) {
        (true, _) => ", resistor at the end of the line",
        (false, true) => ", a cut cable passes unnoticed",
        (false, false) => ", a cut cable is reported",
    });
    if let Ok(cable) = &input.cable {
        let length = english::sentence(Figure::new(cable.length_m, Unit::Metre));
        line.push_str(&format!(", {}, {length}", template::plain(&cable.cable)));
    }
    if input.releases_locks {
        line.push_str("; releases the locks of this door");
    }
    let shown: Vec<String> =
        input.tells.iter().take(MOST_NAMES).map(|name| template::plain(name.as_str())).collect();
    match (shown.is_empty(), input.releases_locks) {
        (true, true) => {}
        (true, false) => line.push_str("; tells nobody"),
        (false, _) => line.push_str(&format!("; tells {}", shown.join(", "))),
    }
    let rest = input.tells.len().saturating_sub(MOST_NAMES);
    if rest > 0 {
        line.push_str(&format!(" and {rest} more"));
    }
    line
}

pub(super) fn load(sheet: &DoorSheet, look: &Look) -> String {
    let Some(load) = &sheet.load else { return String::new() };
    let mut table = Table::new(
        vec![
            Column::new("", "Part", "{}", Set::Words),
            Column::new("", "Model", "{}", Set::Words),
            Column::new("Current mA", "day", "{} mA by day", Set::Number),
            Column::new("", "night", "{} mA by night", Set::Number),
            Column::new("", "Figure from", "from {}", Set::Words),
        ],
        2,
    );
    let milliamperes = |amperes: f64| figures::rounded_up(amperes * 1e3, 1);
    for line in &load.lines {
        table.row(vec![
            words::load_part(line.part).to_string(),
            template::plain(&line.model),
            milliamperes(line.day_a),
            milliamperes(line.night_a),
            template::plain(&line.source),
        ]);
    }
    table.row(vec![
        String::from("together"),
        String::new(),
        milliamperes(load.day_a()),
        milliamperes(load.night_a()),
        String::new(),
    ]);
    let volts = english::sentence(Figure::new(load.bus_v, Unit::Volt));
    let title = look.bold(&format!("Standby load on the bus, nominal, at {volts}"));
    format!("{title}\n{}", table.render(look))
}
