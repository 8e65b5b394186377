//! `latchline ask`: questions that come by telephone, each answered in one sentence to say.

mod answer;
mod document;
mod old_cable;
mod switches;

pub(super) use answer::Answer;
pub(super) use document::DoorLockFigures;

use super::catalogue::Parts;
use super::decimal::{self, Decimal};
use super::part_named::{known, of_family};
use super::written::{TextOrJson, WrittenArguments};
use crate::failure::UNUSABLE;
use crate::refusal::Result;
use crate::surroundings::{Colour, Surroundings};
use clap::{Args, Subcommand};
use document::{BatteryFigures, LightestBattery, LockFigures, MixFigures, RunFigures};
use latchline_reach::telephone::{
    LockWay, NoHours, OneRun, Power, battery_hours, battery_said, cable_called, dry_contact_said, lightest,
    lightest_battery_said, lightest_on, lock_cable, lock_cables, lock_said, locks_said, mix_on_each,
    mix_said, number_of_station, run_said, stations_on, supplies_of, takes_dry_contact, usual_family,
};
use latchline_reach::{Question, default_question, lock_at};
use latchline_report::Look;
use latchline_site::catalogue::{AddressField, Catalogue, FieldKind, StationKind};
use latchline_words::commands::AskWords;
use latchline_words::refusals::{ArgumentRefusal, PartKind, PartRefusal};
use std::io::{Read, Write};
use std::path::PathBuf;
use std::process::ExitCode;

/// Answer a question that comes by telephone, yes or no first
///
/// One sentence to say, and under it what it rests on. All but old-cable need no site file. How many stations on so much cable: latchline reach --total.
#[derive(Debug, Args)]
pub struct AskArguments {
    /// What is asked.
    #[command(subcommand)]
    question: Asked,
}

/// What is asked.
#[derive(Debug, Subcommand)]
enum Asked {
    #[command(flatten)]
    WithoutSite(WithoutSite),
    /// Whether the old cable of a site can stay
    OldCable(old_cable::OldCableArguments),
}

/// What is asked without a site file.
#[derive(Debug, Subcommand)]
enum WithoutSite {
    /// Which cable for a lock that is so far from its door station
    Lock {
        /// Lock of the catalogue
        lock: String,
        /// Length of its cable in metres
        #[arg(long, value_parser = decimal::metres, allow_negative_numbers = true)]
        length: Decimal,
        /// Only this cable, by its name or an everyday name
        #[arg(long)]
        cable: Option<String>,
        /// The cable runs outdoors
        #[arg(long)]
        outdoors: bool,
        /// Door station that feeds it [default: the heaviest of the family]
        #[arg(long, value_name = "MODEL")]
        door: Option<String>,
        #[command(flatten)]
        common: Common,
    },
    /// How long the battery of a supply carries so many stations in standby
    Battery {
        /// How many stations
        stations: usize,
        /// Hours that are wanted: as many batteries are taken as that needs
        #[arg(long, value_parser = decimal::hours)]
        hours: Option<Decimal>,
        /// Model of the stations [default: the heaviest indoor station of the family]
        #[arg(long)]
        station: Option<String>,
        /// Model of the supply [default: the largest of the family with a battery]
        #[arg(long)]
        supply: Option<String>,
        #[command(flatten)]
        doors: DoorLockArguments,
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
        doors: DoorLockArguments,
        #[command(flatten)]
        common: Common,
    },
    /// How the switches of a dwelling's station stand
    Switches {
        /// Number or name of the dwelling: 27, 27B, 27B:2
        #[arg(value_parser = switches::dwelling)]
        dwelling: switches::NamedDwelling,
        /// Number on the switches of the station within its dwelling, as the family counts [default: the main one]
        #[arg(long)]
        extension: Option<u32>,
        /// Number of the building [default: the first]
        #[arg(long)]
        building: Option<u32>,
        #[command(flatten)]
        common: Common,
    },
}

/// The lock at each door.
#[derive(Debug, Default, Args)]
pub(super) struct DoorLockArguments {
    /// Lock that each door feeds and holds while its call stands, or none [default: the strike that the door station can feed]
    #[arg(long = "lock", value_name = "NAME|none")]
    lock: Option<String>,
}

impl DoorLockArguments {
    /// Puts it into a question.
    pub(super) fn put_into(&self, catalogue: &Catalogue, question: &mut Question) -> Result<()> {
        match self.lock.as_deref() {
            None => {}
            Some("none") => question.lock = None,
            Some(lock) => {
                known(catalogue, PartKind::Lock, lock, catalogue.locks.keys())?;
                question.lock = lock_at(catalogue, &question.door, lock);
            }
        }
        Ok(())
    }
}

/// How to ask with another lock.
fn locks_option(question: &Question, look: &Look) -> String {
    match question.lock {
        Some(_) => AskWords::LocksOption,
        None => AskWords::LocksOptionNone,
    }
    .say(look.language)
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
    written: WrittenArguments<TextOrJson>,
}

/// Runs the command.
///
/// # Errors
/// If a part does not exist, or what is asked makes no sense.
pub fn run(
    arguments: &AskArguments,
    surroundings: &Surroundings,
    input: &mut dyn Read,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    match &arguments.question {
        Asked::WithoutSite(question) => without_site(question, surroundings, output),
        Asked::OldCable(asked) => old_cable::run(asked, surroundings, input, output),
    }
}

fn without_site(
    question: &WithoutSite,
    surroundings: &Surroundings,
    output: &mut dyn Write,
) -> Result<ExitCode> {
    let common = match question {
        WithoutSite::Lock { common, .. }
        | WithoutSite::Battery { common, .. }
        | WithoutSite::Mix { common, .. }
        | WithoutSite::Switches { common, .. } => common,
    };
    let look = surroundings.look(Colour::Never, false).in_language(common.written.language.language());
    common.written.result.refuse(&common.catalogue)?;
    let Some(parts) = super::catalogue::parts(&common.catalogue, &look)? else {
        return Ok(ExitCode::from(UNUSABLE));
    };
    let answer = match question {
        WithoutSite::Lock { lock, length, cable, outdoors, door, .. } => {
            let length_m = length.in_language("--length", look.language)?;
            let catalogue = parts.loaded.catalogue();
            let question = lock_question(catalogue, common.family.as_deref(), door.as_deref())?;
            let way = LockWay {
                lock,
                length_m,
                outdoors: *outdoors,
                family: &question.family,
                door: &question.door,
                supply: &question.supply,
            };
            of_lock(&parts, &way, cable.as_deref(), &look)?
        }
        WithoutSite::Battery { stations, hours, station, supply, doors, .. } => {
            let hours = hours.map(|hours| hours.in_language("--hours", look.language)).transpose()?;
            let asked = AskedBattery { stations: *stations, hours, supply: supply.as_deref(), doors };
            of_battery(&parts, common.family.as_deref(), station.as_deref(), &asked, &look)?
        }
        WithoutSite::Mix { models, supply, doors, .. } => {
            of_mix(&parts, common.family.as_deref(), models, supply.as_deref(), doors, &look)?
        }
        WithoutSite::Switches { dwelling, extension, building, .. } => {
            if let (Some(stated), Some(named)) = (extension, dwelling.station) {
                let (named, stated) = (named as usize, *stated as usize);
                return Err(ArgumentRefusal::WhichStation { named, stated }.into());
            }
            let number = |field: &AddressField| match field.kind {
                FieldKind::Dwelling => Some(dwelling.number),
                FieldKind::Extension => {
                    extension.or(dwelling.station.map(|station| number_of_station(field, station)))
                }
                FieldKind::Building => *building,
                FieldKind::Entrance | FieldKind::Management => None,
            };
            switches::of_switches(&parts, common.family.as_deref(), dwelling, &number, &look)?
        }
    };
    answer.put(&common.written, &common.catalogue, output)
}

fn model_and_count(text: &str) -> Result<(String, usize)> {
    let wrong = || ArgumentRefusal::NoModelCount { text };
    let (model, count) = text.rsplit_once('=').ok_or_else(wrong)?;
    let count: usize = count.trim().parse().map_err(|_| wrong())?;
    match count {
        1..=1000 => Ok((model.trim().to_string(), count)),
        _ => Err(ArgumentRefusal::CountFrom.into()),
    }
}

/// The question of a family, with these models in place of the usual ones.
pub(super) fn question(
    catalogue: &Catalogue,
    family: Option<&str>,
    station: Option<&str>,
) -> Result<Question> {
    if let Some(station) = station {
        let indoor = catalogue.stations.iter().filter(|(_, model)| model.kind.value == StationKind::Indoor);
        known(catalogue, PartKind::IndoorStation, station, indoor.map(|(name, _)| name))?;
    }
    let of_station = station.map(|station| catalogue.stations[station].family.value.as_str());
    let Some(family) = family.or(of_station).or_else(|| usual_family(catalogue)) else {
        return Err(PartRefusal::NoFamily.into());
    };
    known(catalogue, PartKind::Family, family, catalogue.families.keys())?;
    let Some(mut question) = default_question(catalogue, family) else {
        return Err(PartRefusal::FamilyLacks { family }.into());
    };
    if let Some(station) = station {
        of_family(station, &catalogue.stations[station].family.value, family)?;
        question.station = station.to_string();
    }
    Ok(question)
}

/// The question of a lock: the family that is named, or that of the door station, with its usual supply.
fn lock_question(catalogue: &Catalogue, family: Option<&str>, door: Option<&str>) -> Result<Question> {
    if let Some(door) = door {
        known(catalogue, PartKind::DoorStation, door, catalogue.stations.keys())?;
        if catalogue.stations[door].kind.value != StationKind::Door {
            return Err(PartRefusal::NoDoorStation { name: door }.into());
        }
    }
    let of_door = door.map(|door| catalogue.stations[door].family.value.as_str());
    let mut question = question(catalogue, family.or(of_door), None)?;
    if let Some(door) = door {
        of_family(door, &catalogue.stations[door].family.value, &question.family)?;
        question.door = door.to_string();
    }
    Ok(question)
}

/// The supplies that are asked: the stated one, else the largest without and with battery.
fn supplies(catalogue: &Catalogue, family: &str, stated: Option<&str>) -> Result<Vec<(Power, String)>> {
    let Some(stated) = stated else { return Ok(supplies_of(catalogue, family)) };
    known(catalogue, PartKind::Supply, stated, catalogue.supplies.keys())?;
    let model = &catalogue.supplies[stated];
    of_family(stated, &model.family.value, family)?;
    let power = if model.battery.is_some() { Power::BatteryEnd } else { Power::Mains };
    Ok(vec![(power, stated.to_string())])
}

/// The family of a supply that is named, where no station is: then that one is meant.
pub(super) fn family_of_supply<'c>(
    catalogue: &'c Catalogue,
    station: Option<&str>,
    supply: Option<&str>,
) -> Option<&'c str> {
    let supply = supply.filter(|_| station.is_none())?;
    catalogue.supplies.get(supply).map(|model| model.family.value.as_str())
}

/// Which supplies of a family have a battery, the strongest first.
fn with_battery_words(catalogue: &Catalogue, family: &str, look: &Look) -> Option<String> {
    let mut having: Vec<_> = catalogue
        .supplies
        .values()
        .filter(|model| model.family.value == family && model.battery.is_some())
        .collect();
    having.sort_by(|a, b| b.rated_current.value.as_amps().total_cmp(&a.rated_current.value.as_amps()));
    let names: Vec<&str> = having.iter().map(|model| model.head.name.as_str()).collect();
    let words = AskWords::HaveBattery { supplies: &names.join(", ") };
    (!names.is_empty()).then(|| words.say(look.language))
}

/// The cable that is meant.
pub(super) fn cable_meant<'c>(
    catalogue: &'c Catalogue,
    asked: &str,
) -> Result<&'c latchline_site::catalogue::Cable> {
    if asked.trim().is_empty() {
        return Err(PartRefusal::NoCableNamed.into());
    }
    cable_called(catalogue, asked).map_err(|none| {
        if let Some((name, cable)) = &none.nearly {
            return PartRefusal::NoCable { asked, name, cable }.into();
        }
        let names: Vec<String> = none
            .choices
            .iter()
            .filter_map(|name| catalogue.cables.get(name))
            .map(|cable| format!("{} ({})", cable.head.name, cable.head.title.name()))
            .collect();
        PartRefusal::WhichCable { asked, known: &names.join(", ") }.into()
    })
}

/// How many stations on one run: the lower figure is the sentence.
///
/// Where no model was named, it is told which was taken and how many of the lightest work.
pub(super) fn of_run(parts: &Parts, run: &OneRun, is_named: bool, look: &Look) -> Result<Answer> {
    let carried = stations_on(&parts.sources, &parts.loaded, run)?;
    if carried.is_empty() {
        return Err(PartRefusal::FamilyWithoutSupply { family: &run.question.family }.into());
    }
    let works = carried.iter().all(|one| one.stations > 0);
    let lightest = if is_named { None } else { lightest_on(&parts.sources, &parts.loaded, run)? };
    let mut lines = run_said(run, &carried, lightest.as_ref(), look.locale());
    lines.push(locks_option(&run.question, look));
    Answer::new("stations", lines, works, look, RunFigures::of(run, &carried, lightest.as_ref()))
}

fn of_lock(parts: &Parts, way: &LockWay<'_>, cable: Option<&str>, look: &Look) -> Result<Answer> {
    let LockWay { lock, length_m, .. } = *way;
    let catalogue = parts.loaded.catalogue();
    known(catalogue, PartKind::Lock, lock, catalogue.locks.keys())?;
    if !(0.1..=1000.0).contains(&length_m) {
        return Err(decimal::no_length("--length", length_m, 0.1, 1000.0));
    }
    if takes_dry_contact(catalogue, lock) {
        let lines = dry_contact_said(lock, length_m, look.locale());
        return Answer::new("lock", lines, true, look, LockFigures::of(way, &[]));
    }
    let (lines, found) = match cable {
        Some(cable) => {
            let cable = &cable_meant(catalogue, cable)?.head.name;
            let found = lock_cable(&parts.sources, &parts.loaded, way, cable);
            (lock_said(lock, length_m, found.as_ref(), look.locale()), found.into_iter().collect())
        }
        None => {
            let all = lock_cables(&parts.sources, &parts.loaded, way);
            (locks_said(lock, length_m, &all, look.locale()), all)
        }
    };
    let works = found.first().is_some_and(|best| {
        (best.holds() || best.holds_doubled().is_some()) && (best.suits || cable.is_some())
    });
    Answer::new("lock", lines, works, look, LockFigures::of(way, &found))
}

/// What is asked of a battery.
struct AskedBattery<'a> {
    stations: usize,
    hours: Option<f64>,
    supply: Option<&'a str>,
    doors: &'a DoorLockArguments,
}

fn of_battery(
    parts: &Parts,
    family: Option<&str>,
    station: Option<&str>,
    asked: &AskedBattery<'_>,
    look: &Look,
) -> Result<Answer> {
    let catalogue = parts.loaded.catalogue();
    if !(1..=200).contains(&asked.stations) {
        return Err(ArgumentRefusal::NoStations { stations: asked.stations }.into());
    }
    if asked.hours.is_some_and(|hours| !(0.1..=1000.0).contains(&hours)) {
        return Err(ArgumentRefusal::HoursFrom.into());
    }
    let family = family.or_else(|| family_of_supply(catalogue, station, asked.supply));
    let mut question = question(catalogue, family, station)?;
    asked.doors.put_into(catalogue, &mut question)?;
    let supplies = supplies(catalogue, &question.family, asked.supply)?;
    let with_battery = supplies.iter().find(|(power, _)| *power == Power::BatteryEnd);
    let Some((_, supply)) = with_battery.or(supplies.first()) else {
        return Err(PartRefusal::FamilyWithoutSupply { family: &question.family }.into());
    };
    question.supply.clone_from(supply);
    let found = battery_hours(&parts.sources, &parts.loaded, &question, asked.stations, asked.hours)?;
    let works = found.as_ref().is_ok_and(|found| found.works(asked.hours));
    let said = found.as_ref().map_err(|none| *none);
    let mut lines = battery_said(&question, asked.stations, said, asked.hours, look.locale());
    if found.as_ref().is_err_and(|none| *none == NoHours::NoBattery) {
        lines.extend(with_battery_words(catalogue, &question.family, look));
    }
    // Whoever names no model hears what the heaviest asks for, and what the lightest would.
    let light = match (station, lightest(catalogue, &question.family)) {
        (None, Some(model)) if model != question.station && found.is_ok() => {
            let light = Question { station: model, ..question.clone() };
            let found = battery_hours(&parts.sources, &parts.loaded, &light, asked.stations, asked.hours)?;
            found.ok().map(|found| (light.station, found))
        }
        _ => None,
    };
    if let Some((model, found)) = &light {
        let said = lightest_battery_said(
            &question.station,
            model,
            asked.stations,
            found,
            asked.hours,
            look.locale(),
        );
        // Behind the first sentence, which is the same on the office page.
        lines.insert(lines.len().min(1), said);
    }
    if found.is_ok() {
        lines.push(locks_option(&question, look));
    }
    let mut figures = BatteryFigures::of(&question, asked.stations, asked.hours, found.as_ref().ok());
    figures.lightest = light.as_ref().map(|(model, found)| LightestBattery::of(model, found));
    Answer::new("battery", lines, works, look, figures)
}

fn of_mix(
    parts: &Parts,
    family: Option<&str>,
    models: &[(String, usize)],
    supply: Option<&str>,
    doors: &DoorLockArguments,
    look: &Look,
) -> Result<Answer> {
    let catalogue = parts.loaded.catalogue();
    let first = models.first().map(|(model, _)| model.as_str());
    let mut question = question(catalogue, family, first)?;
    doors.put_into(catalogue, &mut question)?;
    for (model, _) in models {
        known(catalogue, PartKind::Station, model, catalogue.stations.keys())?;
        let station = &catalogue.stations[model];
        of_family(model, &station.family.value, &question.family)?;
        if station.kind.value != StationKind::Indoor {
            return Err(PartRefusal::NoIndoorStation { name: model }.into());
        }
    }
    if models.iter().map(|(_, count)| count).sum::<usize>() > 400 {
        return Err(PartRefusal::TooManyStations.into());
    }
    let calls = catalogue.families[&question.family].simultaneous_calls.value as usize;
    let supplies = supplies(catalogue, &question.family, supply)?;
    let found = mix_on_each(&parts.sources, &parts.loaded, &question, models, calls, supplies)?;
    let works = found.iter().all(|(_, one)| one.limit.is_none());
    let mut lines = mix_said(&question, models, calls, &found, look.locale());
    lines.push(locks_option(&question, look));
    Answer::new("mix", lines, works, look, MixFigures::of(&question, models, calls, &found))
}
