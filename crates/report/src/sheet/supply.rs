//! The sheet of one supply.

use super::{calculation, caution, fact, findings};
use crate::paint::Look;
use crate::physics_text::power_return;
use crate::report::Report;
use crate::table::{Column, Set, Table};
use crate::{figures, template};
use latchline_assess::supply::{BatteryFigures, SupplySheet};
use latchline_assess::{Missing, Rounding};
use latchline_finding::{Figure, OperatingState, Unit};
use latchline_words::report::{Label, SheetHead, SheetWords};
use latchline_words::states;

/// The sheet of the supply with this name; `None` if there is none in the assessment.
pub fn supply(report: &Report<'_>, name: &str, look: &Look) -> Option<String> {
    let sheet = report.assessment?.supply_sheets.iter().find(|sheet| sheet.supply.as_str() == name)?;
    let mut blocks = vec![head(sheet, look)];
    match &sheet.battery {
        Some(Ok(battery)) => blocks.push(hours(battery, look)),
        Some(Err(missing)) => {
            let line = SheetWords::NotJudged { missing: &Missing::list(missing, look.language) };
            blocks.push(fact(Label::Battery, &line.say(look.language), look));
        }
        None => blocks.push(fact(Label::Battery, &SheetWords::NoBattery.say(look.language), look)),
    }
    blocks.push(mains(report, sheet, look));
    if !sheet.calculation.is_empty() {
        let lines = calculation(&sheet.calculation, look);
        blocks.push(format!("{}\n{lines}", look.bold(SheetHead::Calculation.say(look.language))));
    }
    blocks.push(findings(report, &sheet.supply, look));
    blocks.push(caution(look));
    blocks.retain(|block| !block.is_empty());
    Some(blocks.join("\n"))
}

fn head(sheet: &SupplySheet, look: &Look) -> String {
    let say = |words: SheetWords<'_>| words.say(look.language);
    let name = &template::plain(sheet.supply.as_str());
    let mut text = format!("{}\n", look.bold(&say(SheetWords::Supply { name })));
    text.push_str(&fact(Label::Model, &sheet.model, look));
    if !sheet.place.is_empty() {
        text.push_str(&fact(Label::Place, sheet.place.of(look.language), look));
    }
    let celsius = |value: f64| look.figure(Figure::new(value, Unit::Celsius));
    let ambient = match (sheet.ambient_c, sheet.ambient_limit_c) {
        (Some(ambient), Some(limit)) => {
            say(SheetWords::AmbientOf { ambient: &celsius(ambient), limit: &celsius(limit) })
        }
        (Some(ambient), None) => celsius(ambient),
        (None, Some(limit)) => say(SheetWords::AmbientNotStated { limit: &celsius(limit) }),
        (None, None) => say(SheetWords::NotStated),
    };
    text.push_str(&fact(Label::Cupboard, &ambient, look));
    if let Some(mains) = &sheet.mains {
        // Up, as on the page.
        let watts = |value: f64| figures::shown(Figure::new(value, Unit::Watt), Rounding::Up, look.language);
        let charging = (mains.charging_w > 0.0).then(|| {
            // What is left over: never more than there is.
            let left = Figure::new(mains.charging_w, Unit::Watt);
            let power = &figures::shown(left, Rounding::Down, look.language);
            say(if mains.charging_waits {
                SheetWords::ChargingWithTheRest { power }
            } else {
                SheetWords::Charging { power }
            })
        });
        let line = SheetWords::Load {
            power: &watts(mains.output_w),
            state: &states::in_words(&OperatingState::from(mains.state), look.language),
            charging: charging.as_deref(),
        };
        text.push_str(&fact(Label::Load, &say(line), look));
        if !mains.missing.is_empty() {
            let line = SheetWords::NotAllKnown { missing: &Missing::list(&mains.missing, look.language) };
            text.push_str(&fact(Label::Mains, &say(line), look));
        }
    }
    text
}

/// Mains lost, and back.
fn mains(report: &Report<'_>, sheet: &SupplySheet, look: &Look) -> String {
    let say = |words: SheetWords<'_>| words.say(look.language);
    let hours = |value, rounding| figures::shown(Figure::new(value, Unit::Hour), rounding, look.language);
    let battery = sheet.battery.as_ref().and_then(|battery| battery.as_ref().ok());
    let mut text = String::new();
    if let Some(shortest) = battery.and_then(BatteryFigures::shortest) {
        let line = SheetWords::BatteryTakesOver {
            hours: &hours(shortest.hours, Rounding::Down),
            state: &states::few_words(&OperatingState::from(shortest.state), look.language),
        };
        text.push_str(&fact(Label::MainsLost, &say(line), look));
    }
    let starts = report.assessment.map_or(&[][..], |assessment| &assessment.start_up);
    if let Some(start) = starts.iter().find(|start| start.source == sheet.supply) {
        let mut line = power_return(start, look);
        if battery.is_some() {
            line = say(SheetWords::AfterLongFailure { what: &line });
        }
        if let Some(recharge) = battery.and_then(|battery| battery.recharge_hours) {
            let hours = &hours(recharge, Rounding::Up);
            line = say(SheetWords::BackInTheBattery { what: &line, hours });
        }
        if sheet.mains.as_ref().is_some_and(|mains| mains.charging_waits) {
            line = say(SheetWords::MoreWhereLoadLeavesLess { what: &line });
        }
        text.push_str(&fact(Label::MainsBack, &line, look));
    }
    text
}

fn hours(battery: &BatteryFigures, look: &Look) -> String {
    let say = |words: SheetWords<'_>| words.say(look.language);
    let word = |head: SheetHead| head.say(look.language);
    let amp_hours =
        |value: f64, rounding| figures::shown(Figure::new(value, Unit::AmpereHour), rounding, look.language);
    let mut text = format!("{}\n", look.bold(word(SheetHead::Battery)));
    let batteries = battery.batteries as usize;
    let count = (batteries > 1).then(|| say(SheetWords::InParallel { batteries }));
    let line = SheetWords::Capacity {
        count: count.as_deref(),
        capacity: &amp_hours(battery.capacity_ah, Rounding::Nearest),
        rate: &look.figure(Figure::new(battery.rated_hours, Unit::Hour)),
        effective: &amp_hours(battery.effective_ah, Rounding::Down),
    };
    text.push_str(&fact(Label::Capacity, &say(line), look));
    let coldest =
        figures::shown(Figure::new(battery.coldest_c, Unit::Celsius), Rounding::Nearest, look.language);
    let is_assumed = battery.assumed.list().iter().any(|name| name.ends_with(" coldest_ambient"));
    let coldest = if is_assumed { say(SheetWords::Assumed { value: &coldest }) } else { coldest };
    text.push_str(&fact(Label::ColdestAir, &coldest, look));
    let calls = battery.calls.as_ref().map_or_else(
        || say(if battery.calls_collapse { SheetWords::CallsCollapse } else { SheetWords::NoCallCounted }),
        |calls| {
            let each = &look.figure(Figure::new(calls.duration_s, Unit::Second));
            say(SheetWords::CallsOf { calls: &look.decimals(figures::trimmed(calls.per_hour, 1)), each })
        },
    );
    text.push_str(&fact(Label::Calls, &calls, look));
    if let Some(required) = battery.required_hours {
        let hours = &look.figure(Figure::new(required, Unit::Hour));
        text.push_str(&fact(Label::AskedFor, hours, look));
    }
    let mut table = Table::new(
        vec![
            Column::new("", word(SheetHead::State), "{}", Set::Words),
            Column::new("", word(SheetHead::LoadWatts), "{} W", Set::Number),
            Column::new(
                "",
                word(SheetHead::BatteryAmperes),
                word(SheetHead::BatteryAmperesNamed),
                Set::Number,
            ),
            Column::new("", word(SheetHead::Hours), "{} h", Set::Number),
        ],
        2,
    );
    for load in &battery.loads {
        table.row(vec![
            states::few_words(&OperatingState::from(load.state), look.language),
            figures::watts(load.bus_power_w, look.language),
            look.decimals(figures::rounded_up(load.with_calls_a, 3)),
            figures::battery_hours(load.hours, look.language),
        ]);
    }
    if !battery.loads.is_empty() {
        text.push_str(&table.render(look));
    }
    text
}
