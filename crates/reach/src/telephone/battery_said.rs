//! What is said of the hours of a battery: the sentence for the telephone first, then what it rests on.

use super::said::{degrees, doors_hold, locks_taken, number, titles, up};
use super::{BatteryAnswer, BatteryHours, NoHours};
use crate::question::Question;
use latchline_finding::Locale;
use latchline_words::commands::AskWords;
use latchline_words::figures;

/// What is said of a battery, with the hours that were wanted.
pub fn battery_said(
    question: &Question,
    stations: usize,
    found: Result<&BatteryAnswer, NoHours>,
    wanted: Option<f64>,
    locale: Locale,
) -> Vec<String> {
    let say = |words: AskWords<'_>| words.say(locale.language);
    let supply = &*question.supply;
    let answer = match found {
        Ok(answer) => answer,
        Err(NoHours::NoBattery) => return vec![say(AskWords::NoBattery { supply })],
        Err(NoHours::FigureMissing) => return vec![say(AskWords::BatteryNotJudged { supply })],
    };
    let (supplies, found) = answer.taken();
    // Hours of what does not work are no answer.
    if !found.limits.is_empty() {
        let broken = battery_broken(question, found, locale);
        let first = [broken, say(AskWords::HoursOfFewer { supply }), battery_house(1, found, locale)];
        let others = other_houses(found, locale);
        return first.into_iter().chain(others).chain(locks_taken(question, locale)).collect();
    }
    let verdict = wanted.map(|wanted| battery_verdict(supplies, found, wanted, locale));
    let verdict = verdict.as_deref();
    let (model, door) = (&*question.station, &*question.door);
    let locks = &*doors_hold(question.lock.as_ref(), locale);
    let hours = &*figures::battery_hours(found.hours, locale.language);
    let (calls, batteries) = (found.calls, found.batteries as usize);
    let capacity = &*number(found.capacity_ah, 1, locale);
    // The lower figure first: who hears no more than that is safe.
    let time = &*match found.hours_with_heater {
        Some(heated) => {
            let heated = &figures::battery_hours(heated, locale.language);
            say(AskWords::HoursHeated { heated, hours })
        }
        None => say(AskWords::HoursAlone { hours }),
    };
    let mut lines = Vec::new();
    if supplies == 1 {
        let hours = AskWords::Hours {
            verdict,
            time,
            supply,
            stations,
            model,
            door,
            calls,
            locks,
            batteries,
            capacity,
        };
        lines.push(say(hours));
    } else {
        let each = found.stations;
        let shared = AskWords::HoursShared {
            verdict,
            supplies,
            time,
            supply,
            stations,
            each,
            model,
            door,
            calls,
            locks,
            batteries,
            capacity,
        };
        lines.push(say(shared));
        lines.push(battery_broken(question, &answer.on_one, locale));
        lines.push(say(AskWords::HoursTwoBuses));
    }
    let is_short = wanted.is_some_and(|wanted| found.hours < wanted);
    lines.extend(is_short.then(|| say(AskWords::HoursShortHelp)));
    lines.extend(found.recharge_hours.map(|hours| {
        let hours = figures::decimals(figures::rounded_up(hours, 1), locale.language);
        say(AskWords::ChargerSlow { hours: &hours })
    }));
    lines.push(battery_house(supplies, found, locale));
    let current = up(found.battery_current_a, locale);
    let current = match found.battery_current_with_heater_a.map(|heated| up(heated, locale)) {
        Some(heated) => say(AskWords::CurrentHeated { heated: &heated, current: &current }),
        None => say(AskWords::CurrentAlone { current: &current }),
    };
    lines.push(say(AskWords::HoursUnder {
        current: &current,
        capacity,
        counted: &figures::decimals(figures::rounded_down(found.effective_ah, 1), locale.language),
        ambient: &degrees(found.coldest_c, locale),
    }));
    lines.extend(locks_taken(question, locale));
    lines
}

/// Yes or no first: it is what was asked.
fn battery_verdict(supplies: usize, found: &BatteryHours, wanted: f64, locale: Locale) -> String {
    let enough = |hours: f64| hours >= wanted;
    let wanted = &*number(wanted, 1, locale);
    let words = match (enough(found.hours), found.hours_with_heater.is_none_or(enough)) {
        (true, true) if supplies > 1 => {
            AskWords::HoursEnoughShared { wanted, supplies, batteries: supplies * found.batteries as usize }
        }
        (true, true) => {
            let batteries = Some(found.batteries as usize).filter(|batteries| *batteries > 1);
            AskWords::HoursEnough { wanted, batteries }
        }
        (true, false) => AskWords::HoursShortWithHeater { wanted },
        (false, _) => AskWords::HoursShort { wanted },
    };
    words.say(locale.language)
}

/// Why so many do not work on one supply.
fn battery_broken(question: &Question, found: &BatteryHours, locale: Locale) -> String {
    let current = found.current_a.map(|current| up(current, locale));
    let rated = found.rated_a.map(|rated| number(rated, 2, locale));
    AskWords::HoursBroken {
        stations: found.stations,
        model: &question.station,
        supply: &found.supply,
        titles: &titles(&found.limits, locale.language),
        current: current.as_deref(),
        rated: rated.as_deref(),
        calls: found.calls,
        locks: &doors_hold(question.lock.as_ref(), locale),
    }
    .say(locale.language)
}

/// The house that was counted with.
fn battery_house(supplies: usize, found: &BatteryHours, locale: Locale) -> String {
    let (distributor, boxes) = (&*found.distributors.0, found.distributors.1 as usize);
    let on_a_port = found.on_a_port;
    match supplies {
        1 => AskWords::HoursHouse { boxes, distributor, on_a_port },
        _ => AskWords::HoursHouseOnEach { boxes, distributor, on_a_port },
    }
    .say(locale.language)
}

/// The houses that were tried besides.
fn other_houses(found: &BatteryHours, locale: Locale) -> Option<String> {
    let tried: Vec<String> = found.also_tried.iter().map(usize::to_string).collect();
    let also = &*tried.join(", ");
    (!tried.is_empty()).then(|| AskWords::HoursOtherHouses { also }.say(locale.language))
}

/// What the lightest model asks of the battery, where none was named and `heaviest` was taken.
pub fn lightest_battery_said(
    heaviest: &str,
    lightest: &str,
    stations: usize,
    found: &BatteryAnswer,
    wanted: Option<f64>,
    locale: Locale,
) -> String {
    let say = |words: AskWords<'_>| words.say(locale.language);
    let (supplies, found) = found.taken();
    let (supply, batteries) = (&*found.supply, found.batteries as usize);
    if !found.limits.is_empty() {
        let titles = &titles(&found.limits, locale.language);
        return say(AskWords::LightestBroken { heaviest, lightest, stations, supply, titles });
    }
    let hours = &*figures::battery_hours(found.least_hours(), locale.language);
    match found.works(wanted) {
        false => say(AskWords::LightestShort { heaviest, lightest, stations, supply, batteries, hours }),
        true => say(AskWords::LightestBattery {
            heaviest,
            lightest,
            stations,
            supplies,
            supply,
            batteries,
            hours,
        }),
    }
}
