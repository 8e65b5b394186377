//! What hangs on a door station besides locks: modules, lights, alarm inputs; and what all of it draws.

use super::calculation;
use crate::paint::Look;
use crate::table::{Column, Set, Table, paragraph};
use crate::{figures, template};
use latchline_assess::Missing;
use latchline_assess::door::alarm::AlarmSheet;
use latchline_assess::door::sheet::DoorSheet;
use latchline_assess::door::words;
use latchline_finding::{Figure, Unit};
use latchline_words::report::{SheetHead, SheetWords};

/// Names shown of those who are told; the rest are counted.
const MOST_NAMES: usize = 4;

/// Columns of the currents by day and by night, in mA.
fn day_and_night(look: &Look) -> [Column; 2] {
    let word = |head: SheetHead| head.say(look.language);
    let unit = word(SheetHead::CurrentMilliamperes);
    [
        Column::new(unit, word(SheetHead::Day), word(SheetHead::DayNamed), Set::Number),
        Column::new("", word(SheetHead::Night), word(SheetHead::NightNamed), Set::Number),
    ]
}

pub(super) fn modules(sheet: &DoorSheet, look: &Look) -> String {
    if sheet.modules.modules.is_empty() {
        return String::new();
    }
    let word = |head: SheetHead| head.say(look.language);
    let [day, night] = day_and_night(look);
    let mut table = Table::new(
        vec![
            Column::new("", word(SheetHead::Number), "{}", Set::Number),
            Column::new("", word(SheetHead::Module), "{}", Set::Words),
            Column::new("", word(SheetHead::Kind), "{}", Set::Words),
            day,
            night,
        ],
        2,
    );
    for module in &sheet.modules.modules {
        table.row(vec![
            module.position.to_string(),
            template::plain(&module.model),
            words::accessory(module.kind).say(look.language).to_string(),
            figures::rounded_up(module.current_a * 1e3, 0),
            figures::rounded_up(module.night_current_a * 1e3, 0),
        ]);
    }
    let lines = calculation(&sheet.modules.calculation(), look);
    format!("{}\n{}{lines}", look.bold(word(SheetHead::Modules)), table.render(look))
}

pub(super) fn lights(sheet: &DoorSheet, look: &Look) -> String {
    if sheet.lights.is_empty() {
        return String::new();
    }
    let word = |head: SheetHead| head.say(look.language);
    let mut table = Table::new(
        vec![
            Column::new("", word(SheetHead::Number), "{}", Set::Number),
            Column::new("", word(SheetHead::Light), "{}", Set::Words),
            Column::new("", word(SheetHead::Kind), "{}", Set::Words),
            Column::new("", word(SheetHead::FedFrom), word(SheetHead::FedFromNamed), Set::Words),
            Column::new("", word(SheetHead::On), word(SheetHead::OnNamed), Set::Words),
            Column::new(word(SheetHead::Rated), "V", "{} V", Set::Number),
            Column::new("", "mA", "{} mA", Set::Number),
        ],
        2,
    );
    for light in &sheet.lights {
        table.row(vec![
            light.number.to_string(),
            template::plain(&light.model),
            words::light(light.kind).say(look.language).to_string(),
            words::light_feed(light.feed).say(look.language).to_string(),
            words::lit(light.lit).say(look.language).to_string(),
            look.decimals(figures::trimmed(light.rated_v, 1)),
            figures::rounded_up(light.current_a * 1e3, 0),
        ]);
    }
    let output = sheet.light_output.as_ref().map(|output| std::slice::from_ref(&output.calculation));
    let lines = output.map_or(String::new(), |lines| calculation(lines, look));
    format!("{}\n{}{lines}", look.bold(word(SheetHead::Lights)), table.render(look))
}

pub(super) fn alarm_inputs(sheet: &DoorSheet, look: &Look) -> String {
    if sheet.alarm_inputs.is_empty() {
        return String::new();
    }
    let mut text = format!("{}\n", look.bold(SheetHead::AlarmInputs.say(look.language)));
    for input in &sheet.alarm_inputs {
        text.push_str(&paragraph(&alarm_line(input, look), 2, look.width));
        match (&input.calculation, &input.cable) {
            (Some(line), _) => text.push_str(&calculation(std::slice::from_ref(line), look)),
            (None, Err(missing)) => {
                let missing = &Missing::list(missing, look.language);
                let line = SheetWords::LoopNotJudged { missing }.say(look.language);
                text.push_str(&paragraph(&template::plain(&line), 4, look.width));
            }
            (None, Ok(_)) => {}
        }
    }
    text
}

fn alarm_line(input: &AlarmSheet, look: &Look) -> String {
    let say = |words: SheetWords<'_>| words.say(look.language);
    let watch = say(match (input.end_of_line_resistor, input.cut_passes_unnoticed) {
        (true, _) => SheetWords::EndOfLineResistor,
        (false, true) => SheetWords::CutPassesUnnoticed,
        (false, false) => SheetWords::CutIsReported,
    });
    let cable = input.cable.as_ref().ok().map(|cable| {
        let length = look.figure(Figure::new(cable.length_m, Unit::Metre));
        format!("{}, {length}", template::plain(&cable.cable))
    });
    let shown: Vec<String> =
        input.tells.iter().take(MOST_NAMES).map(|name| template::plain(name.as_str())).collect();
    let more = Some(input.tells.len().saturating_sub(MOST_NAMES)).filter(|more| *more > 0);
    let tells = match (shown.is_empty(), input.releases_locks) {
        (true, true) => None,
        (true, false) => Some(say(SheetWords::TellsNobody)),
        (false, _) => Some(say(SheetWords::Tells { names: &shown.join(", "), more })),
    };
    say(SheetWords::AlarmInput {
        number: input.number,
        kind: words::alarm(input.kind).say(look.language),
        contact: words::at_rest(input.contact).say(look.language),
        watch: &watch,
        cable: cable.as_deref(),
        releases: input.releases_locks.then(|| say(SheetWords::ReleasesLocks)).as_deref(),
        tells: tells.as_deref(),
    })
}

pub(super) fn load(sheet: &DoorSheet, look: &Look) -> String {
    let Some(load) = &sheet.load else { return String::new() };
    let word = |head: SheetHead| head.say(look.language);
    let [day, night] = day_and_night(look);
    let mut table = Table::new(
        vec![
            Column::new("", word(SheetHead::Part), "{}", Set::Words),
            Column::new("", word(SheetHead::Model), "{}", Set::Words),
            day,
            night,
            Column::new("", word(SheetHead::FigureFrom), word(SheetHead::FigureFromNamed), Set::Words),
        ],
        2,
    );
    let milliamperes = |amperes: f64| look.decimals(figures::rounded_up(amperes * 1e3, 1));
    for line in &load.lines {
        table.row(vec![
            words::load_part(line.part).say(look.language).to_string(),
            template::plain(&line.model),
            milliamperes(line.day_a),
            milliamperes(line.night_a),
            template::plain(&line.source.say(look.language)),
        ]);
    }
    table.row(vec![
        String::from(word(SheetHead::Together)),
        String::new(),
        milliamperes(load.day_a()),
        milliamperes(load.night_a()),
        String::new(),
    ]);
    let voltage = &look.figure(Figure::new(load.bus_v, Unit::Volt));
    let title = look.bold(&SheetWords::StandbyLoad { voltage }.say(look.language));
    format!("{title}\n{}", table.render(look))
}
