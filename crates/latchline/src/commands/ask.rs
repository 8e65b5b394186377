//! `latchline ask`: questions that come by telephone, each answered in one sentence to say.

use super::catalogue::Parts;
use super::locale::LanguageArguments;
use crate::failure::UNUSABLE;
use crate::output;
use crate::surroundings::{Colour, Surroundings};
use anyhow::{Result, bail};
use clap::{Args, Subcommand};
use latchline_finding::{Code, Language};
use latchline_reach::telephone::{
    Carried, LockCable, LockWay, OneRun, Power, battery_hours, cable_called, lightest, lock_cable,
    lock_cables, lock_from_own_supply, mix_on, stations_on, supplies_of, switches_for, usual_family,
};
use latchline_reach::{MOST_STATIONS, Question, default_question};
use latchline_report::Look;
use latchline_report::addresses::picture::picture;
use latchline_report::addresses::{few_words, field_word};
use latchline_report::table::paragraph;
use latchline_report::wording::capital;
use latchline_site::addresses::number_in_name;
use latchline_site::catalogue::{Catalogue, FieldKind, StationKind};
use latchline_words::commands::{AskHead, AskWords};
use latchline_words::{codes, figures};
use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

/// Answer a question that comes by telephone, without a site file
///
/// One sentence to say, and under it what it rests on. How many stations on so much cable: latchline reach --total.
#[derive(Debug, Args)]
pub struct AskArguments {
    /// What is asked.
    #[command(subcommand)]
    question: Asked,
}

/// What is asked.
#[derive(Debug, Subcommand)]
enum Asked {
    /// Which cable for a lock that is so far from its door station
    Lock {
        /// Lock of the catalogue
        lock: String,
        /// Length of its cable in metres
        #[arg(long, value_parser = super::reach::metres)]
        length: f64,
        /// Only this cable, by its name or an everyday name
        #[arg(long)]
        cable: Option<String>,
        /// The cable runs outdoors
        #[arg(long)]
        outdoors: bool,
        #[command(flatten)]
        common: Common,
    },
    /// How long the battery of a supply carries so many stations in standby
    Battery {
        /// How many stations
        stations: usize,
        /// Hours that are wanted: as many batteries are taken as that needs
        #[arg(long)]
        hours: Option<f64>,
        /// Model of the stations [default: the heaviest indoor station of the family]
        #[arg(long)]
        station: Option<String>,
        /// Model of the supply [default: the largest of the family with a battery]
        #[arg(long)]
        supply: Option<String>,
        #[command(flatten)]
        common: Common,
    },
    /// Whether a mix of models works on one supply: ostrel-v4=12 ostrel-v7=6
    Mix {
        /// Models, each with how many
        #[arg(required = true, value_name = "MODEL=COUNT", value_parser = model_and_count)]
        models: Vec<(String, usize)>,
        /// Model of the supply [default: the largest of the family without and with battery]
        #[arg(long)]
        supply: Option<String>,
        #[command(flatten)]
        common: Common,
    },
    /// How the switches of a dwelling's station stand
    Switches {
        /// Number or name of the dwelling: 27, 27B, 27B:2
        #[arg(value_parser = dwelling)]
        dwelling: NamedDwelling,
        /// Number of the station within its dwelling, as the family counts [default: the main one]
        #[arg(long)]
        extension: Option<u32>,
        /// Number of the building [default: the first]
        #[arg(long)]
        building: Option<u32>,
        #[command(flatten)]
        common: Common,
    },
}

/// What every question can say.
#[derive(Debug, Args)]
struct Common {
    /// Family of the catalogue [default: that of the models named, else the one with most models]
    #[arg(long)]
    family: Option<String>,
    /// Further catalogue files
    #[arg(long, value_name = "FILE")]
    catalogue: Vec<PathBuf>,
    #[command(flatten)]
    language: LanguageArguments,
}

/// Runs the command.
///
/// # Errors
/// If a part does not exist, or what is asked makes no sense.
pub fn run(
    arguments: &AskArguments,
    surroundings: &Surroundings,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    let common = match &arguments.question {
        Asked::Lock { common, .. }
        | Asked::Battery { common, .. }
        | Asked::Mix { common, .. }
        | Asked::Switches { common, .. } => common,
    };
    let look = surroundings.look(Colour::Never, false).in_language(common.language.language());
    let Some(parts) = super::catalogue::parts(&common.catalogue, &look)? else {
        return Ok(ExitCode::from(UNUSABLE));
    };
    let answer = match &arguments.question {
        Asked::Lock { lock, length, cable, outdoors, .. } => {
            let way = LockWay { lock, length_m: *length, outdoors: *outdoors };
            of_lock(&parts, &way, cable.as_deref(), &look)?
        }
        Asked::Battery { stations, hours, station, supply, .. } => {
            let asked = AskedBattery { stations: *stations, hours: *hours, supply: supply.as_deref() };
            of_battery(&parts, common.family.as_deref(), station.as_deref(), &asked, &look)?
        }
        Asked::Mix { models, supply, .. } => {
            of_mix(&parts, common.family.as_deref(), models, supply.as_deref(), &look)?
        }
        Asked::Switches { dwelling, extension, building, .. } => {
            let number = |kind| match kind {
                FieldKind::Dwelling => Some(dwelling.number),
                FieldKind::Extension => extension.or(dwelling.extension),
                FieldKind::Building => *building,
                FieldKind::Entrance | FieldKind::Management => None,
            };
            let mut answer = of_switches(&parts, common.family.as_deref(), &number, &look)?;
            if let Some(name) = &dwelling.name {
                let words = AskWords::SwitchesNamed { name, number: dwelling.number as usize };
                answer.text.push_str(&paragraph(&words.say(look.language), 0, look.width));
            }
            answer
        }
    };
    output::put(&answer.text, output)?;
    Ok(ExitCode::from(u8::from(!answer.holds)))
}

/// What is said, and whether what was asked for works.
pub(super) struct Answer {
    text: String,
    holds: bool,
}

impl Answer {
    pub(super) fn text(&self) -> &str {
        &self.text
    }

    fn new(sentences: &[String], holds: bool, look: &Look) -> Self {
        let mut text: String = sentences.iter().map(|line| paragraph(line, 0, look.width)).collect();
        text.push_str(&paragraph(&AskWords::Caution.say(look.language), 0, look.width));
        Answer { text, holds }
    }
}

/// A dwelling by its number, or by a name with a number in it.
#[derive(Debug, Clone)]
struct NamedDwelling {
    number: u32,
    extension: Option<u32>,
    /// The name, where it says more than the number.
    name: Option<String>,
}

fn dwelling(text: &str) -> Result<NamedDwelling, String> {
    let wrong = || format!("\"{text}\" has no number in it; write for example 27, 27B or 27B:2");
    let (name, extension) = match text.trim().split_once(':') {
        Some((name, extension)) => (name, Some(extension.parse().map_err(|_| wrong())?)),
        None => (text.trim(), None),
    };
    let number = number_in_name(name).ok_or_else(wrong)?;
    let says_more = name.parse::<u32>().is_err();
    Ok(NamedDwelling { number, extension, name: says_more.then(|| name.to_string()) })
}

fn model_and_count(text: &str) -> Result<(String, usize), String> {
    let wrong = || format!("\"{text}\" is no model with a count; write for example ostrel-v4=12");
    let (model, count) = text.rsplit_once('=').ok_or_else(wrong)?;
    let count: usize = count.trim().parse().map_err(|_| wrong())?;
    match count {
        1..=1000 => Ok((model.trim().to_string(), count)),
        _ => Err(String::from("a count is from 1 to 1000")),
    }
}

/// The question of a family, with these models in place of the usual ones.
pub(super) fn question(
    catalogue: &Catalogue,
    family: Option<&str>,
    station: Option<&str>,
) -> Result<Question> {
    if let Some(station) = station {
        super::reach::known("station", station, catalogue.stations.keys())?;
    }
    let of_station = station.map(|station| catalogue.stations[station].family.value.as_str());
    let Some(family) = family.or(of_station).or_else(|| usual_family(catalogue)) else {
        bail!("the catalogue has no family");
    };
    super::reach::known("family", family, catalogue.families.keys())?;
    let Some(mut question) = default_question(catalogue, family) else {
        bail!("the family {family} lacks a supply, distributor, door or indoor station");
    };
    if let Some(station) = station {
        super::reach::of_family(station, &catalogue.stations[station].family.value, family)?;
        question.station = station.to_string();
    }
    Ok(question)
}

/// The supplies that are asked: the stated one, else the largest without and with battery.
fn supplies(catalogue: &Catalogue, family: &str, stated: Option<&str>) -> Result<Vec<(Power, String)>> {
    let Some(stated) = stated else { return Ok(supplies_of(catalogue, family)) };
    super::reach::known("supply", stated, catalogue.supplies.keys())?;
    let model = &catalogue.supplies[stated];
    super::reach::of_family(stated, &model.family.value, family)?;
    let power = if model.battery.is_some() { Power::BatteryEnd } else { Power::Mains };
    Ok(vec![(power, stated.to_string())])
}

/// The cable that is meant.
pub(super) fn cable_meant<'c>(
    catalogue: &'c Catalogue,
    asked: &str,
) -> Result<&'c latchline_site::catalogue::Cable> {
    cable_called(catalogue, asked).map_err(|none| {
        let names: Vec<String> = none
            .choices
            .iter()
            .filter_map(|name| catalogue.cables.get(name))
            .map(|cable| format!("{} ({})", cable.head.name, cable.head.title))
            .collect();
        anyhow::anyhow!("which cable is \"{asked}\"? It may be {}", names.join(", "))
    })
}

fn power_words(power: Power, language: Language) -> &'static str {
    match power {
        Power::Mains => AskHead::OnMains,
        Power::BatteryEnd => AskHead::ToBatteryEnd,
    }
    .say(language)
}

fn title(code: Code, language: Language) -> String {
    codes::of(code.as_str()).map_or_else(|| code.to_string(), |words| words.title(language).to_string())
}

fn number(value: f64, decimals: usize, language: Language) -> String {
    figures::decimals(figures::trimmed(value, decimals), language)
}

fn down(value: f64, language: Language) -> String {
    figures::decimals(figures::rounded_down(value, 1), language)
}

/// How many stations on one run: the lower figure is the sentence.
///
/// Where no model was named, it is told which was taken and how many of the lightest work.
pub(super) fn of_run(
    parts: &Parts,
    run: &OneRun,
    is_named: bool,
    look: &Look,
) -> Result<(Answer, Vec<Carried>)> {
    let language = look.language;
    let say = |words: AskWords<'_>| words.say(language);
    let mut carried = stations_on(&parts.sources, &parts.loaded, run)?;
    carried.sort_by_key(|one| one.stations);
    let Some(lowest) = carried.first() else { bail!("the family {} has no supply", run.question.family) };
    let (model, total, cable) = (&*run.question.station, &*number(run.total_m, 1, language), &*run.cable);
    let power = power_words(lowest.power, language);
    let (supply, calls) = (&*lowest.supply, run.calls);
    let mut lines = vec![match lowest.stations {
        0 => say(AskWords::NotOne { model, total, cable, power, supply, calls }),
        stations => say(AskWords::HowMany { stations, model, total, cable, power, supply, calls }),
    }];
    let light = lightest(parts.loaded.catalogue(), &run.question.family);
    if let Some(light) = light.filter(|light| !is_named && *light != run.question.station) {
        let question = Question { station: light.clone(), ..run.question.clone() };
        let of_light = stations_on(&parts.sources, &parts.loaded, &OneRun { question, ..run.clone() })?;
        if let Some(fewest) = of_light.iter().min_by_key(|one| one.stations) {
            let (stations, power) = (fewest.stations, power_words(fewest.power, language));
            lines.push(say(AskWords::HeaviestTaken { model, lightest: &light, stations, power }));
        }
    }
    for other in &carried[1..] {
        let power = &capital(power_words(other.power, language));
        lines.push(say(AskWords::Other { power, supply: &other.supply, stations: other.stations }));
    }
    for one in &carried {
        lines.push(match one.limit {
            Some(code) => {
                let power = power_words(one.power, language);
                say(AskWords::OneMore { power, title: &title(code, language) })
            }
            None => say(AskWords::NoMore { most: MOST_STATIONS }),
        });
    }
    lines.extend(lowest.margin_v.map(|margin| {
        let (stations, margin) = (lowest.stations, &*down(margin, language));
        say(match lowest.is_thin {
            true => AskWords::MarginThin { stations, power, margin },
            false => AskWords::Margin { stations, power, margin },
        })
    }));
    lines.push(say(AskWords::Under { distributor: &run.question.distributor }));
    let holds = lowest.stations > 0;
    Ok((Answer::new(&lines, holds, look), carried))
}

fn of_lock(parts: &Parts, way: &LockWay<'_>, cable: Option<&str>, look: &Look) -> Result<Answer> {
    let language = look.language;
    let say = |words: AskWords<'_>| words.say(language);
    let catalogue = parts.loaded.catalogue();
    let LockWay { lock, length_m, outdoors } = *way;
    super::reach::known("lock", lock, catalogue.locks.keys())?;
    if !(0.1..=1000.0).contains(&length_m) {
        bail!("--length {length_m} is not a length between 0.1 and 1000 m");
    }
    let length = &*number(length_m, 1, language);
    let not_judged = || Answer::new(&[say(AskWords::LockNotJudged { lock })], false, look);
    let volts = |one: &LockCable| (down(one.least_v, language), number(one.needs_v, 1, language));
    let all = lock_cables(&parts.sources, &parts.loaded, way);
    let takes = |one: &LockCable| one.holds() && one.suits;
    let only = match cable {
        Some(cable) => {
            let cable = &cable_meant(catalogue, cable)?.head.name;
            Some(lock_cable(&parts.sources, &parts.loaded, way, cable))
        }
        None => None,
    };
    let Some(best) = only.clone().unwrap_or_else(|| all.first().cloned()) else { return Ok(not_judged()) };
    let (voltage, needs) = (&*volts(&best).0, &*volts(&best).1);
    let longest = best.longest_m.map(|metres| number(metres, 0, language));
    let (cable, longest) = (&*best.cable, longest.as_deref());
    let mut lines = vec![say(match (only.is_some(), best.holds(), best.suits) {
        (true, true, _) => AskWords::LockHolds { lock, length, cable, voltage, needs },
        (true, false, _) => AskWords::LockFails { lock, length, cable, voltage, needs, longest },
        (false, true, true) => AskWords::LockNeeds { lock, length, cable, voltage, needs },
        (false, ..) if outdoors => AskWords::LockTooFarOutdoors { lock, length, cable, longest },
        (false, ..) => AskWords::LockTooFar { lock, length, cable, longest },
    })];
    if !best.holds() {
        lines.extend(ways_out(parts, way, &best, language));
        if only.is_some()
            && let Some(other) = all.first().filter(|other| takes(other))
        {
            lines.push(say(AskWords::LockOther { cable: &other.cable }));
        }
    }
    if !best.suits {
        lines.push(say(AskWords::LockUnsuited { cable }));
    }
    for one in all.iter().filter(|_| only.is_none()) {
        let (voltage, _) = volts(one);
        let reach = one.longest_m.map_or_else(
            || String::from("–"),
            |metres| say(AskWords::LockReach { longest: &number(metres, 0, language) }),
        );
        let place = if one.suits { "" } else { AskHead::NotOutdoors.say(language) };
        lines.push(format!(
            "  {:<14}{:>7} V {}, {} {reach}{place}",
            one.cable,
            voltage,
            AskHead::AtTheLock.say(language),
            AskHead::Reaches.say(language)
        ));
    }
    lines.push(say(if outdoors { AskWords::LockOutdoors } else { AskWords::LockIndoors }));
    lines.push(say(AskWords::LockUnder { door: &best.door, supply: &best.supply }));
    Ok(Answer::new(&lines, best.holds(), look))
}

/// What helps where a cable does not carry a lock: a supply of its own, two pairs side by side.
fn ways_out(parts: &Parts, way: &LockWay<'_>, cable: &LockCable, language: Language) -> Vec<String> {
    let name = &*cable.cable;
    let own = match lock_from_own_supply(&parts.sources, &parts.loaded, way, name) {
        Some(own) => AskWords::LockOwnSupply {
            cable: name,
            supply: &number(own.voltage_v, 1, language),
            tolerance: &number(own.tolerance_percent, 0, language),
            voltage: &down(own.least_v, language),
        }
        .say(language),
        None => AskWords::LockNoWay.say(language),
    };
    let doubled = cable.longest_doubled_m().filter(|metres| *metres >= way.length_m);
    let doubled = doubled.map(|metres| {
        AskWords::LockDoubled { cable: name, longest: &number(metres, 0, language) }.say(language)
    });
    std::iter::once(own).chain(doubled).collect()
}

/// What is asked of a battery.
struct AskedBattery<'a> {
    stations: usize,
    hours: Option<f64>,
    supply: Option<&'a str>,
}

fn of_battery(
    parts: &Parts,
    family: Option<&str>,
    station: Option<&str>,
    asked: &AskedBattery<'_>,
    look: &Look,
) -> Result<Answer> {
    let language = look.language;
    let say = |words: AskWords<'_>| words.say(language);
    let catalogue = parts.loaded.catalogue();
    if !(1..=200).contains(&asked.stations) {
        bail!("{} is not a number of stations from 1 to 200", asked.stations);
    }
    if asked.hours.is_some_and(|hours| !(0.1..=1000.0).contains(&hours)) {
        bail!("--hours is from 0.1 to 1000");
    }
    let mut question = question(catalogue, family, station)?;
    let supplies = supplies(catalogue, &question.family, asked.supply)?;
    let with_battery = supplies.iter().find(|(power, _)| *power == Power::BatteryEnd);
    let Some((_, supply)) = with_battery.or(supplies.first()) else {
        bail!("the family {} has no supply", question.family);
    };
    question.supply.clone_from(supply);
    let found = battery_hours(&parts.sources, &parts.loaded, &question, asked.stations, asked.hours)?;
    let Some(found) = found else {
        return Ok(Answer::new(&[say(AskWords::NoBattery { supply: &question.supply })], false, look));
    };
    let up = |value: f64| figures::decimals(figures::rounded_up(value, 2), language);
    let mut lines = Vec::new();
    if !found.limits.is_empty() {
        lines.push(say(AskWords::HoursBroken {
            stations: asked.stations,
            model: &question.station,
            supply: &found.supply,
            titles: &titles(&found.limits, language),
            current: found.current_a.map(up).as_deref(),
            rated: found.rated_a.map(|rated| number(rated, 2, language)).as_deref(),
        }));
    }
    lines.push(say(AskWords::Hours {
        stations: asked.stations,
        model: &question.station,
        door: &question.door,
        hours: &down(found.hours, language),
        supply: &found.supply,
        batteries: found.batteries as usize,
        capacity: &number(found.capacity_ah, 1, language),
    }));
    let holds = |wanted: f64, hours: f64| hours >= wanted;
    let is_enough = asked.hours.is_none_or(|wanted| holds(wanted, found.hours));
    if let Some(hours) = found.hours_with_heater {
        lines.push(say(AskWords::Heater { door: &question.door, hours: &down(hours, language) }));
    }
    // What the supply does not bear is enough for nothing.
    if let Some(wanted) = asked.hours.filter(|_| found.limits.is_empty()) {
        let with_heater = found.hours_with_heater.is_none_or(|hours| holds(wanted, hours));
        let wanted = &number(wanted, 1, language);
        lines.push(match (is_enough, with_heater) {
            (true, true) => say(AskWords::HoursEnough { wanted }),
            (true, false) => say(AskWords::HoursShortWithHeater { wanted }),
            (false, _) => say(AskWords::HoursShort { wanted }),
        });
    }
    lines.extend(found.recharge_hours.map(|hours| {
        say(AskWords::ChargerSlow { hours: &figures::decimals(figures::rounded_up(hours, 1), language) })
    }));
    lines.push(say(AskWords::HoursUnder {
        current: &up(found.battery_current_a),
        ambient: &number(found.coldest_c, 0, language),
    }));
    Ok(Answer::new(&lines, is_enough && found.limits.is_empty(), look))
}

/// Most errors that a sentence names.
const MOST_TITLES: usize = 4;

/// What is wrong, for a sentence.
fn titles(codes: &[Code], language: Language) -> String {
    let mut named: Vec<String> = codes.iter().take(MOST_TITLES).map(|code| title(*code, language)).collect();
    if codes.len() > MOST_TITLES {
        named.push(String::from("…"));
    }
    named.join("; ")
}

fn of_mix(
    parts: &Parts,
    family: Option<&str>,
    models: &[(String, usize)],
    supply: Option<&str>,
    look: &Look,
) -> Result<Answer> {
    let language = look.language;
    let say = |words: AskWords<'_>| words.say(language);
    let catalogue = parts.loaded.catalogue();
    let first = models.first().map(|(model, _)| model.as_str());
    let mut question = question(catalogue, family, first)?;
    for (model, _) in models {
        super::reach::known("station", model, catalogue.stations.keys())?;
        let station = &catalogue.stations[model];
        super::reach::of_family(model, &station.family.value, &question.family)?;
        if station.kind.value != StationKind::Indoor {
            bail!("{model} is no indoor station");
        }
    }
    if models.iter().map(|(_, count)| count).sum::<usize>() > 400 {
        bail!("more than 400 stations are no question for one supply");
    }
    let calls = catalogue.families[&question.family].simultaneous_calls.value as usize;
    let mut found = Vec::new();
    for (power, supply) in supplies(catalogue, &question.family, supply)? {
        question.supply = supply;
        found.push((power, mix_on(&parts.sources, &parts.loaded, &question, models, calls)?));
    }
    // What does not work is said first.
    found.sort_by_key(|(_, one)| one.limit.is_none());
    let mix: Vec<String> = models.iter().map(|(model, count)| format!("{count} {model}")).collect();
    let mix = &*mix.join(" + ");
    let mut lines: Vec<String> = found
        .iter()
        .map(|(power, one)| {
            let (power, supply) = (power_words(*power, language), &*one.supply);
            match one.limit {
                None => say(AskWords::MixWorks { mix, power, supply, calls }),
                Some(code) => {
                    say(AskWords::MixFails { mix, power, supply, calls, title: &title(code, language) })
                }
            }
        })
        .collect();
    for (_, one) in &found {
        let up = |value: f64| figures::decimals(figures::rounded_up(value, 2), language);
        lines.push(say(AskWords::MixFigures {
            supply: &one.supply,
            shares: one.shares.map(up).as_deref(),
            current: one.current_a.map(up).as_deref(),
            rated: one.rated_a.map(|rated| number(rated, 2, language)).as_deref(),
        }));
    }
    lines.push(say(AskWords::MixUnder));
    let holds = found.iter().all(|(_, one)| one.limit.is_none());
    Ok(Answer::new(&lines, holds, look))
}

fn of_switches(
    parts: &Parts,
    family: Option<&str>,
    number: &dyn Fn(FieldKind) -> Option<u32>,
    look: &Look,
) -> Result<Answer> {
    let language = look.language;
    let catalogue = parts.loaded.catalogue();
    let Some(family) = family.or_else(|| usual_family(catalogue)) else {
        bail!("the catalogue has no family")
    };
    super::reach::known("family", family, catalogue.families.keys())?;
    let rows = switches_for(&catalogue.families[family], number);
    let outside = rows.iter().find(|row| row.setting.is_none());
    if let Some(row) = outside {
        let words = AskWords::OutOfRange {
            field: &capital(field_word(row.kind, language)),
            number: row.number as usize,
            low: row.range.0 as usize,
            high: row.range.1 as usize,
        };
        return Ok(Answer::new(&[words.say(language)], false, look));
    }
    let set = || rows.iter().filter_map(|row| Some((row, row.setting.as_ref()?)));
    let numbers: Vec<String> =
        rows.iter().map(|row| format!("{} {}", field_word(row.kind, language), row.number)).collect();
    let settings: Vec<String> =
        set().map(|(row, setting)| format!("{} {}", row.label, few_words(setting, look))).collect();
    let sentence =
        AskWords::Switches { family, numbers: &numbers.join(", "), settings: &settings.join("; ") };
    let mut text = paragraph(&sentence.say(language), 0, look.width);
    text.push('\n');
    for (row, setting) in set() {
        for line in picture(&row.label, setting) {
            text.push_str(&format!("  {line}\n"));
        }
    }
    Ok(Answer { text, holds: true })
}
