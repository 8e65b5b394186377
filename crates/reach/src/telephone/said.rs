//! What is said of an answer: the sentence for the telephone first, then what it rests on. The terminal, its JSON and the office page
//! say the same.

use super::{Carried, Lightest, LockCable, MixOn, OneRun, Power, Spread};
use crate::bare_site::{DOOR_CABLE, DOOR_M, DoorsAt, FEED_CABLE, FEED_M};
use crate::door_lock::{DoorLock, LOCK_CABLE, LOCK_M};
use crate::question::{MOST_STATIONS, Question};
use latchline_finding::{Code, Figure, Language, Locale, Unit};
use latchline_site::catalogue::LoadValue;
use latchline_site::model::HOTTEST_CONDUCTOR_C;
use latchline_words::commands::{AskHead, AskWords, ReachWords};
use latchline_words::{codes, figures};

/// On what it is fed, for a sentence.
pub fn power_word(power: Power, language: Language) -> &'static str {
    match power {
        Power::Mains => AskHead::OnMains,
        Power::BatteryEnd => AskHead::ToBatteryEnd,
    }
    .say(language)
}

/// Most errors that a sentence names.
const MOST_TITLES: usize = 4;

/// What is wrong, for a sentence.
pub(super) fn titles(codes: &[Code], language: Language) -> String {
    let mut named: Vec<String> =
        codes.iter().take(MOST_TITLES).map(|code| codes::title_of(code.as_str(), language)).collect();
    if codes.len() > MOST_TITLES {
        named.push(String::from("…"));
    }
    named.join("; ")
}

pub(super) fn number(value: f64, decimals: usize, locale: Locale) -> String {
    locale.trimmed(value, decimals)
}

fn volts(value: f64, locale: Locale) -> String {
    figures::volts(value, locale.language)
}

pub(super) fn up(value: f64, locale: Locale) -> String {
    figures::amperes(value, locale.language)
}

/// A length with its unit.
fn metres(length_m: f64, locale: Locale) -> String {
    let (value, decimals, symbol) = locale.scaled(Figure::new(length_m, Unit::Metre));
    format!("{} {symbol}", locale.trimmed(value, usize::from(decimals)))
}

/// What a door station takes while it feeds a lock, with its unit.
fn draws(lock: &DoorLock, locale: Locale) -> Option<String> {
    let (value, symbol) = match lock.draws? {
        LoadValue::Power(power) => (power.as_watts(), "W"),
        LoadValue::Current(current) => (current.as_amps(), "A"),
        LoadValue::Resistance(resistance) => (resistance.as_ohms(), "ohm"),
    };
    Some(format!("{} {symbol}", number(value, 3, locale)))
}

/// Where the door stations of a question hang, as a part of a sentence.
pub fn doors_at_words(doors: DoorsAt, language: Language) -> String {
    let at_supply = match doors.by_branch_box {
        true => ReachWords::DoorsOnBranchBox { doors: doors.on_supply },
        false => ReachWords::DoorsOnSupply { doors: doors.on_supply },
    };
    let at_ports = ReachWords::DoorsOnPorts { doors: doors.on_ports };
    let at_supply = (doors.on_supply > 0).then(|| at_supply.say(language));
    let at_ports = (doors.on_ports > 0).then(|| at_ports.say(language));
    at_supply.into_iter().chain(at_ports).collect::<Vec<_>>().join(", ")
}

/// The locks that are held, as a part of a sentence.
pub(super) fn doors_hold(lock: Option<&DoorLock>, locale: Locale) -> String {
    let Some(lock) = lock else { return AskWords::DoorsHoldNone.say(locale.language) };
    match draws(lock, locale) {
        // A lock's watts are told by what the door takes for it; amperes of the bus are not those of the lock.
        Some(draws) if matches!(lock.draws, Some(LoadValue::Current(_))) => {
            AskWords::DoorsHoldFromTheBus { lock: &lock.model, draws: &draws }.say(locale.language)
        }
        Some(draws) => AskWords::DoorsHold { draws: &draws }.say(locale.language),
        None => AskWords::DoorsHoldUnstated { lock: &lock.model }.say(locale.language),
    }
}

/// What was taken of the locks at the doors of a question; nothing where no door feeds one.
pub fn locks_taken(question: &Question, locale: Locale) -> Option<String> {
    let lock = question.lock.as_ref()?;
    let door = &*question.door;
    let words = match draws(lock, locale) {
        Some(draws) => AskWords::LocksTaken {
            door,
            lock: &lock.model,
            draws: &draws,
            length: &metres(LOCK_M, locale),
            cable: LOCK_CABLE,
        }
        .say(locale.language),
        None => AskWords::LocksNotCounted { door, lock: &lock.model }.say(locale.language),
    };
    Some(words)
}

/// A temperature with its unit.
pub(super) fn degrees(celsius: f64, locale: Locale) -> String {
    let (value, decimals, symbol) = locale.scaled(Figure::new(celsius, Unit::Celsius));
    format!("{} {symbol}", locale.trimmed(value, usize::from(decimals)))
}

/// What is said of stations spread over the run's own length; see [`spread_said`].
pub fn run_said(run: &OneRun, carried: &[Carried], light: Option<&Lightest>, locale: Locale) -> Vec<String> {
    spread_said(run, Spread::Over(run.total_m), carried, light, locale)
}

/// The sentence for the telephone: how many, on the supply that carries least.
fn how_many(run: &OneRun, spread: Spread, lowest: &Carried, locale: Locale) -> String {
    let (model, cable, calls) = (&*run.question.station, &*run.cable, run.calls);
    let (power, supply) = (power_word(lowest.power, locale.language), &*lowest.supply);
    let total = &*metres(spread.total_m(lowest.stations), locale);
    let spacing = &*metres(spread.section_m(lowest.stations), locale);
    let locks = &*doors_hold(run.question.lock.as_ref(), locale);
    let words = match (spread, lowest.stations) {
        (Spread::Over(_), 0) => AskWords::NotOne { model, total, cable, power, supply, calls, locks },
        (Spread::Over(_), stations) => {
            AskWords::HowMany { stations, model, total, cable, power, supply, calls, locks }
        }
        (Spread::Apart(_), 0) => AskWords::NotOneApart { model, spacing, cable, power, supply, calls, locks },
        (Spread::Apart(_), stations) => {
            AskWords::HowManyApart { stations, model, spacing, total, cable, power, supply, calls, locks }
        }
    };
    words.say(locale.language)
}

/// What is said of stations on one run, the supply that carries least first; nothing where the family has no supply. `light`: how many of
/// the lightest work, where no model was named.
pub fn spread_said(
    run: &OneRun,
    spread: Spread,
    carried: &[Carried],
    light: Option<&Lightest>,
    locale: Locale,
) -> Vec<String> {
    let language = locale.language;
    let say = |words: AskWords<'_>| words.say(language);
    let Some(lowest) = carried.first() else { return Vec::new() };
    let model = &*run.question.station;
    let power = power_word(lowest.power, language);
    let mut lines = vec![how_many(run, spread, lowest, locale)];
    let unjudged = not_judged(carried);
    if !unjudged.is_empty() {
        let codes: Vec<&str> = unjudged.iter().map(|code| code.as_str()).collect();
        lines.push(say(AskWords::RunNotJudged { codes: &codes.join(", ") }));
    }
    lines.extend(lowest.margin_v.map(|margin| {
        let (stations, margin) = (lowest.stations, &*volts(margin, locale));
        say(match lowest.is_thin {
            true => AskWords::MarginThin { stations, power, margin },
            false => AskWords::Margin { stations, power, margin },
        })
    }));
    lines.extend(light.map(|light| {
        let (lightest, stations) = (&*light.model, light.stations);
        let power = power_word(light.power, language);
        say(match stations {
            0 => AskWords::HeaviestTakenNone { model, lightest, power },
            _ => AskWords::HeaviestTaken { model, lightest, stations, power },
        })
    }));
    for other in carried.iter().skip(1) {
        let power = power_word(other.power, language);
        lines.push(say(AskWords::Other { power, supply: &other.supply, stations: other.stations }));
    }
    for one in carried {
        lines.push(match one.limit {
            Some(code) => {
                let power = power_word(one.power, language);
                let title = &*codes::title_of(code.as_str(), language);
                say(match one.stations {
                    0 => AskWords::WhyNone { power, title },
                    _ => AskWords::OneMore { power, title },
                })
            }
            None => say(AskWords::NoMore { most: MOST_STATIONS }),
        });
    }
    for one in carried {
        lines.extend(one.fewer_fail.as_ref().map(|(counts, code)| {
            let counts: Vec<String> = counts.iter().map(usize::to_string).collect();
            let power = power_word(one.power, language);
            say(AskWords::FewerFail {
                power,
                counts: &counts.join(", "),
                title: &codes::title_of(code.as_str(), language),
            })
        }));
    }
    let (distributor, feed, feed_cable) = (&*run.question.distributor, &*metres(FEED_M, locale), FEED_CABLE);
    lines.push(say(match spread {
        Spread::Over(_) => AskWords::Under { distributor, feed, feed_cable },
        Spread::Apart(_) => AskWords::UnderApart { distributor, feed, feed_cable },
    }));
    if carried.iter().any(|one| one.heaters_off) {
        lines.push(say(AskWords::HeaterOff { door: &run.question.door }));
    }
    // Supplies with the same doors are told together.
    let mut houses: Vec<(DoorsAt, Vec<&str>)> = Vec::new();
    for one in carried {
        match houses.iter_mut().find(|(doors, _)| *doors == one.doors) {
            Some((_, supplies)) if supplies.contains(&one.supply.as_str()) => {}
            Some((_, supplies)) => supplies.push(&one.supply),
            None => houses.push((one.doors, vec![&one.supply])),
        }
    }
    for (doors_at, supplies) in houses {
        let DoorsAt { on_supply, on_ports, .. } = doors_at;
        let on_supply_and_ports = on_supply + on_ports;
        let supply = &*supplies.join(", ");
        let at = doors_at_words(doors_at, language);
        let (doors, model) = (on_supply_and_ports, &*run.question.door);
        let (length, at, cable) = (&*metres(DOOR_M, locale), &*at, DOOR_CABLE);
        lines.push(ReachWords::Doors { supply, doors, model, length, cable, at }.say(language));
    }
    lines.extend(locks_taken(&run.question, locale));
    lines.push(say(if unjudged.is_empty() { AskWords::RunJudged } else { AskWords::RunJudgedOtherwise }));
    lines
}

/// What no rule could judge for lack of values, on any of the supplies.
pub fn not_judged(carried: &[Carried]) -> Vec<Code> {
    let mut codes: Vec<Code> = carried.iter().flat_map(|one| one.not_judged.iter().copied()).collect();
    codes.sort_unstable();
    codes.dedup();
    codes
}

/// What else helps, whether a cable is made for where it runs, and for where it was asked; `is_named`: whether this cable was asked for.
fn lock_besides(found: &LockCable, is_named: bool, locale: Locale) -> Vec<String> {
    let cable = &*found.cable;
    let say = |words: AskWords<'_>| words.say(locale.language);
    let mut lines = Vec::new();
    let works = found.holds() && (found.suits || is_named);
    if !works {
        let doubled = found.holds_doubled();
        lines.extend(
            doubled.map(|two| say(AskWords::LockDoubled { longest: &metres(two.longest_m, locale) })),
        );
        lines.extend(found.own_supply.as_ref().map(|own| {
            let cable = match own.pairs {
                1 => own.cable.clone(),
                _ => say(AskWords::TwoPairsOf { cable: &own.cable }),
            };
            let kind = if own.is_ac { " AC" } else { "" };
            let supply = &*format!("{} V{kind}", number(own.voltage_v, 1, locale));
            let cable = &*cable;
            let tolerance = &*number(own.tolerance_percent, 0, locale);
            let voltage = &*figures::volts(own.least_v, locale.language);
            say(match doubled {
                Some(_) => AskWords::LockOwnSupplyToo { cable, supply, tolerance, voltage },
                None => AskWords::LockOwnSupply { cable, supply, tolerance, voltage },
            })
        }));
        lines.extend(found.own_supply.as_ref().map(|own| match own.opens_without_power {
            true => say(AskWords::OwnSupplyOpens),
            false => say(AskWords::OwnSupplyStaysShut),
        }));
        if doubled.is_none() && found.own_supply.is_none() {
            lines.push(say(AskWords::LockNoWay));
        }
    }
    if !found.suits {
        lines.push(say(AskWords::LockUnsuited { cable }));
    }
    lines.push(say(if found.outdoors { AskWords::LockOutdoors } else { AskWords::LockIndoors }));
    lines
}

/// What is said of a lock that may not be fed so, and what helps.
fn lock_refused(lock: &str, found: &LockCable, is_named: bool, locale: Locale) -> Option<Vec<String>> {
    let door = &*found.door;
    let refusals: Vec<String> =
        found.refused.iter().map(|one| codes::wording(one, locale.language).message).collect();
    let why = &*refusals.join("; ");
    (!refusals.is_empty()).then(|| {
        let first = AskWords::LockRefused { lock, door, why }.say(locale.language);
        std::iter::once(first).chain(lock_besides(found, is_named, locale)).collect()
    })
}

/// The voltage at a lock, rounded as its door's sheet rounds it.
fn at_lock(found: &LockCable, locale: Locale) -> String {
    figures::volts(found.least_v, locale.language)
}

/// What is said of a lock that nothing feeds.
pub fn dry_contact_said(lock: &str, length_m: f64, locale: Locale) -> Vec<String> {
    let length = &*metres(length_m, locale);
    vec![AskWords::LockDryContact { lock, length }.say(locale.language)]
}

/// What is said of a lock on one cable; `found` is missing where that cannot be judged.
pub fn lock_said(lock: &str, length_m: f64, found: Option<&LockCable>, locale: Locale) -> Vec<String> {
    let say = |words: AskWords<'_>| words.say(locale.language);
    let Some(found) = found else { return vec![say(AskWords::LockNotJudged { lock })] };
    let (length, cable) = (&*metres(length_m, locale), &*found.cable);
    let (voltage, needs) = (&*at_lock(found, locale), &*number(found.needs_v, 2, locale));
    let (door, supply) = (&*found.door, &*found.supply);
    if let Some(refused) = lock_refused(lock, found, true, locale) {
        return refused;
    }
    let first = match (found.holds(), found.holds_doubled()) {
        (true, _) => say(AskWords::LockHolds { lock, length, cable, door, supply, voltage, needs }),
        (false, Some(two)) => {
            let doubled = &*volts(two.least_v, locale);
            say(AskWords::LockFailsOnOnePair { lock, length, cable, door, supply, voltage, needs, doubled })
        }
        (false, None) => say(AskWords::LockFails { lock, length, cable, door, supply, voltage, needs }),
    };
    let mut lines = vec![first];
    lines.extend(found.longest_m.map(|longest| {
        let longest = &metres(longest, locale);
        say(AskWords::LockLongest { cable, longest })
    }));
    lines.extend(lock_besides(found, true, locale));
    lines.push(say(AskWords::LockUnder {
        door: &found.door,
        supply: &found.supply,
        hot: &degrees(HOTTEST_CONDUCTOR_C, locale),
    }));
    lines
}

/// What is said of a lock on every cable of the catalogue, the best first.
pub fn locks_said(lock: &str, length_m: f64, all: &[LockCable], locale: Locale) -> Vec<String> {
    let language = locale.language;
    let say = |words: AskWords<'_>| words.say(language);
    let Some(best) = all.first() else { return lock_said(lock, length_m, None, locale) };
    if let Some(refused) = lock_refused(lock, best, false, locale) {
        return refused;
    }
    let length = &*metres(length_m, locale);
    let reach = |one: &LockCable| one.longest_m.map(|longest_m| metres(longest_m, locale));
    let (voltage, needs) = (&*at_lock(best, locale), &*number(best.needs_v, 2, locale));
    let (door, supply) = (&*best.door, &*best.supply);
    let (cable, longest) = (&*best.cable, reach(best));
    let longest = longest.as_deref();
    let too_far = || {
        say(match best.outdoors {
            true => AskWords::LockTooFarOutdoors { lock, length, door, supply, cable, longest },
            false => AskWords::LockTooFar { lock, length, door, supply, cable, longest },
        })
    };
    let mut lines = match (best.holds() && best.suits, best.holds_doubled()) {
        (true, _) => vec![say(AskWords::LockNeeds { lock, length, cable, door, supply, voltage, needs })],
        (false, Some(two)) => {
            let voltage = &*volts(two.least_v, locale);
            let one_pair = match best.outdoors {
                true => AskWords::LockOnePairOutdoors { cable, longest },
                false => AskWords::LockOnePair { cable, longest },
            };
            let taken = AskWords::LockNeedsTwoPairs { lock, length, cable, door, supply, voltage, needs };
            vec![say(taken), say(one_pair)]
        }
        (false, None) => vec![too_far()],
    };
    lines.extend(lock_besides(best, false, locale));
    for one in all {
        let voltage = at_lock(one, locale);
        let at = AskHead::AtTheLock.say(language);
        let reaches = reach(one).map_or_else(String::new, |longest| {
            format!(", {}", say(AskWords::LockReaches { longest: &longest }))
        });
        let place =
            if one.suits { String::new() } else { format!(" {}", AskHead::NotOutdoors.say(language)) };
        lines.push(format!("{:<14}{voltage:>7} V {at}{reaches}{place}", one.cable));
    }
    lines.push(say(AskWords::LockUnder {
        door: &best.door,
        supply: &best.supply,
        hot: &degrees(HOTTEST_CONDUCTOR_C, locale),
    }));
    lines
}

/// What is said of a mix, by supply; what does not work stands first.
pub fn mix_said(
    question: &Question,
    models: &[(String, usize)],
    calls: usize,
    found: &[(Power, MixOn)],
    locale: Locale,
) -> Vec<String> {
    let language = locale.language;
    let say = |words: AskWords<'_>| words.say(language);
    let mix: Vec<String> = models.iter().map(|(model, count)| format!("{count} {model}")).collect();
    let mix = &*mix.join(" + ");
    let locks = &*doors_hold(question.lock.as_ref(), locale);
    let mut lines: Vec<String> = found
        .iter()
        .map(|(power, one)| {
            let (power, supply) = (power_word(*power, language), &*one.supply);
            match one.limit {
                None => say(AskWords::MixWorks { mix, power, supply, calls, locks }),
                Some(code) => say(AskWords::MixFails {
                    mix,
                    power,
                    supply,
                    calls,
                    locks,
                    title: &codes::title_of(code.as_str(), language),
                }),
            }
        })
        .collect();
    for (_, one) in found {
        lines.push(say(AskWords::MixFigures {
            supply: &one.supply,
            shares: one.shares.map(|shares| locale.decimals(figures::rounded_up(shares, 2))).as_deref(),
            current: one.current_a.map(|current| up(current, locale)).as_deref(),
            rated: one.rated_a.map(|rated| number(rated, 2, locale)).as_deref(),
        }));
    }
    lines.extend(locks_taken(question, locale));
    lines.push(say(AskWords::MixUnder));
    lines
}
