//! The plan held against what the system found.

use super::{class_word, field_word, labelled};
use crate::paint::Look;
use crate::table::{Column, Set, Table, paragraph};
use crate::template::plain;
use latchline_finding::{Language, Severity};
use latchline_site::addresses::{
    Absence, AbsenceCause, AddressPlan, Cause, DeviceClass, Explanation, Reconciliation, StationAddress,
    SwitchSetting, Unread, UnreadLine, absences, fields_of, settings,
};
use latchline_site::model::{Run, RunStop, Site};
use latchline_words::commands::{AddressHead, AddressWords};
use schemars::JsonSchema;
use serde::Serialize;
use std::fmt::Write;

/// What the system found, held against the plan.
#[derive(Debug, Serialize, JsonSchema)]
pub struct ReconciliationDocument {
    /// Stations that answered as planned.
    present: Vec<String>,
    /// Stations that did not answer.
    missing: Vec<String>,
    /// The same by what explains them.
    absences: Vec<AbsenceDocument>,
    /// Devices that nobody planned.
    unexpected: Vec<UnexpectedDocument>,
    /// Addresses that answered more often than planned.
    duplicated: Vec<DuplicateDocument>,
    /// Lines of the list that could not be read.
    unread_lines: Vec<usize>,
}

/// Missing stations that one thing explains.
#[derive(Debug, Serialize, JsonSchema)]
struct AbsenceDocument {
    /// "whole-run", "run-from", "alone" or "set-wrong".
    cause: &'static str,
    /// The run concerned.
    #[serde(skip_serializing_if = "Option::is_none")]
    run: Option<String>,
    /// The last station of the run that answers.
    #[serde(skip_serializing_if = "Option::is_none")]
    last_that_answers: Option<String>,
    /// What explains them and where to look first, in English.
    message: String,
    /// The stations.
    stations: Vec<AbsentDocument>,
}

/// A station that did not answer.
#[derive(Debug, Serialize, JsonSchema)]
struct AbsentDocument {
    /// The station.
    id: String,
    /// Building, core and floor in words.
    place: String,
    /// The run that leads to it.
    #[serde(skip_serializing_if = "Option::is_none")]
    run: Option<String>,
    /// How its switches are to stand, in English.
    set: String,
}

/// A device that nobody planned.
#[derive(Debug, Serialize, JsonSchema)]
struct UnexpectedDocument {
    /// Line of the list.
    line: usize,
    /// Its class.
    class: &'static str,
    /// Its address.
    numbers: Vec<u32>,
    /// How it may have come about, likeliest first.
    explanations: Vec<ExplanationDocument>,
}

/// An address that answered more often than planned.
#[derive(Debug, Serialize, JsonSchema)]
struct DuplicateDocument {
    /// Class of the devices.
    class: &'static str,
    /// The address.
    numbers: Vec<u32>,
    /// How often it answered.
    times: usize,
    /// Stations that are meant to have it.
    stations: Vec<String>,
    /// Which missing stations may be the surplus ones, likeliest first.
    explanations: Vec<ExplanationDocument>,
}

/// Which station it may be, and what is set wrong on it.
#[derive(Debug, Serialize, JsonSchema)]
struct ExplanationDocument {
    /// The station.
    station: String,
    /// What is wrong, in English.
    causes: Vec<String>,
    /// Whether it is part of the likeliest explanation of the whole list.
    best: bool,
}

/// The reconciliation for programs.
pub fn document(
    site: &Site,
    plan: &AddressPlan,
    found: &Reconciliation,
    unread: &[UnreadLine],
) -> ReconciliationDocument {
    let ids = |stations: &[usize]| stations.iter().map(|station| id(site, *station)).collect();
    let explained = |class, list: &[Explanation]| {
        list.iter()
            .map(|one| ExplanationDocument {
                station: id(site, one.station),
                causes: causes(site, class, one, Language::English),
                best: one.best,
            })
            .collect()
    };
    ReconciliationDocument {
        present: ids(&found.present),
        missing: ids(&found.missing),
        absences: absences(site, found).iter().map(|one| absence_document(site, plan, one)).collect(),
        unexpected: found
            .unexpected
            .iter()
            .map(|one| UnexpectedDocument {
                line: one.found.line,
                class: one.found.class.word(),
                numbers: one.found.numbers.clone(),
                explanations: explained(one.found.class, &one.explanations),
            })
            .collect(),
        duplicated: found
            .duplicated
            .iter()
            .map(|one| DuplicateDocument {
                class: one.class.word(),
                numbers: one.numbers.clone(),
                times: one.times,
                stations: ids(&one.stations),
                explanations: explained(one.class, &one.explanations),
            })
            .collect(),
        unread_lines: unread.iter().map(|one| one.line).collect(),
    }
}

fn absence_document(site: &Site, plan: &AddressPlan, absence: &Absence) -> AbsenceDocument {
    let (cause, run, last) = match absence.cause {
        AbsenceCause::WholeRun { run } => ("whole-run", Some(run), None),
        AbsenceCause::RunFrom { run, last, .. } => ("run-from", Some(run), Some(last)),
        AbsenceCause::Alone { run, .. } => ("alone", run, None),
        AbsenceCause::SetWrong { .. } => ("set-wrong", None, None),
    };
    let look = &Look::default();
    let names: Vec<String> = absence.stations.iter().map(|station| id(site, *station)).collect();
    let stations = absence.stations.iter().filter_map(|station| plan.stations.get(*station));
    AbsenceDocument {
        cause,
        run: run.map(|run| site.runs[run].id.to_string()),
        last_that_answers: last.map(|last| id(site, last)),
        message: absence_words(site, absence, &names.join(", "), look),
        stations: stations
            .map(|address| AbsentDocument {
                id: id(site, address.station),
                place: site
                    .place_words(site.station_place(&site.stations[address.station]))
                    .of(look.language)
                    .to_string(),
                run: run_of(site, address.station).map(|run| site.runs[run].id.to_string()),
                set: set_words(site, address, look),
            })
            .collect(),
    }
}

/// What explains that stations are missing, and where to look first.
fn absence_words(site: &Site, absence: &Absence, stations: &str, look: &Look) -> String {
    let run = |run: usize| plain(site.runs[run].id.as_str());
    let station = |station: usize| plain(&id(site, station));
    let words = match absence.cause {
        AbsenceCause::WholeRun { run: index } => {
            let first = site.runs[index].sections.first().map(|section| site.stop_id(section.to));
            return AddressWords::WholeRun {
                stations,
                run: &run(index),
                from: &plain(site.start_id(site.runs[index].from).as_str()),
                first: &first.map(|first| plain(first.as_str())).unwrap_or_default(),
            }
            .say(look.language);
        }
        AbsenceCause::RunFrom { run: index, last, first } => {
            let (run, last, first) = (&run(index), &station(last), &station(first));
            return AddressWords::RunFrom { stations, run, last, first }.say(look.language);
        }
        AbsenceCause::Alone { run: Some(index), .. } if absence.stations.len() > 1 => {
            return AddressWords::NotTheOthers { stations, run: &run(index) }.say(look.language);
        }
        AbsenceCause::Alone { run: Some(index), .. } if site.runs[index].sections.len() == 1 => {
            return AddressWords::OnlyOne { station: stations, run: &run(index) }.say(look.language);
        }
        AbsenceCause::Alone { run: Some(index), .. } => {
            return AddressWords::Alone { station: stations, run: Some(&run(index)) }.say(look.language);
        }
        AbsenceCause::Alone { run: None, .. } => AddressWords::Alone { station: stations, run: None },
        AbsenceCause::SetWrong { .. } => AddressWords::SetWrong { station: stations },
    };
    words.say(look.language)
}

/// Missing stations with their floor, run and switches.
fn missing_table(site: &Site, plan: &AddressPlan, stations: &[usize], look: &Look) -> Table {
    let word = |head: AddressHead| head.say(look.language);
    let columns = [AddressHead::Station, AddressHead::Place, AddressHead::Run, AddressHead::Set];
    let columns = columns.map(|head| Column::new("", word(head), "{}", Set::Words));
    let mut table = Table::new(columns.to_vec(), 4);
    for station in stations {
        let Some(address) = plan.stations.get(*station) else { continue };
        let one = &site.stations[*station];
        table.row(vec![
            plain(one.id.as_str()),
            plain(site.place_words(site.station_place(one)).of(look.language)),
            run_of(site, *station).map(|run| plain(site.runs[run].id.as_str())).unwrap_or_default(),
            set_words(site, address, look),
        ]);
    }
    table
}

fn run_of(site: &Site, station: usize) -> Option<usize> {
    let leads = |run: &Run| run.sections.iter().any(|section| section.to == RunStop::Station(station));
    site.runs.iter().position(leads)
}

/// All switches of a station in few words: "BLOCK all OFF; FLAT 2 7".
fn set_words(site: &Site, address: &StationAddress, look: &Look) -> String {
    let fields = fields_of(site, address.class).iter().zip(address.numbers.iter().flatten());
    let set: Vec<(&str, SwitchSetting)> = fields
        .filter_map(|(field, number)| Some((field.label.as_str(), settings(field, *number)?)))
        .collect();
    labelled(set.iter().map(|(label, setting)| (*label, setting)), look.language)
}

/// Missing stations that the first sentence names.
const MOST_TOLD: usize = 6;

/// The reconciliation for a person.
pub fn text(
    site: &Site,
    plan: &AddressPlan,
    found: &Reconciliation,
    unread: &[UnreadLine],
    look: &Look,
) -> String {
    let say = |words: AddressWords<'_>| words.say(look.language);
    let head = |head: AddressHead| look.bold(head.say(look.language));
    let names = |stations: &[usize]| -> String {
        let names: Vec<String> = stations.iter().map(|station| plain(&id(site, *station))).collect();
        names.join(", ")
    };
    let planned = found.present.len() + found.missing.len();
    // The sentence to say: of many only the first.
    let few: Vec<usize> = found.missing.iter().copied().take(MOST_TOLD).collect();
    let more = found.missing.len() - few.len();
    let mut missing = names(&few);
    if more > 0 {
        missing = say(AddressWords::AndMore { names: &missing, more });
    }
    let missing = (!few.is_empty()).then_some(missing);
    let not_read = (!unread.is_empty()).then(|| {
        let numbers: Vec<String> = unread.iter().map(|one| one.line.to_string()).collect();
        say(AddressWords::LinesNotRead { lines: unread.len(), numbers: &numbers.join(", ") })
    });
    let line = say(AddressWords::Present {
        unread: not_read.as_deref(),
        present: found.present.len(),
        planned,
        missing: missing.as_deref(),
    });
    let differs = !found.missing.is_empty()
        || !found.unexpected.is_empty()
        || !found.duplicated.is_empty()
        || !unread.is_empty();
    let line = paragraph(&line, 0, look.width);
    let line = line.trim_end();
    let mut text = if differs { look.severity(Severity::Error, line) } else { look.good(line) };
    text.push('\n');
    // What could not be read stands before what follows from it.
    if !unread.is_empty() {
        let _ = writeln!(text, "\n{}", head(AddressHead::NotRead));
        unread_words(unread, look).iter().for_each(|line| text.push_str(&paragraph(line, 2, look.width)));
    }
    if !found.missing.is_empty() {
        let _ = write!(text, "\n{}\n", head(AddressHead::Missing));
    }
    for absence in absences(site, found) {
        text.push_str(&paragraph(
            &absence_words(site, &absence, &names(&absence.stations), look),
            2,
            look.width,
        ));
        text.push_str(&missing_table(site, plan, &absence.stations, look).render(look));
    }
    if !found.unexpected.is_empty() {
        let _ = write!(text, "\n{}\n", head(AddressHead::NotPlanned));
    }
    for one in &found.unexpected {
        let line = say(AddressWords::Unexpected {
            class: class_word(one.found.class, look),
            numbers: &numbers(site, one.found.class, &one.found.numbers, look.language),
            line: one.found.line,
            explanation: &explanation(site, one.found.class, &one.explanations, look),
        });
        text.push_str(&paragraph(&line, 2, look.width));
    }
    if !found.duplicated.is_empty() {
        let _ = write!(text, "\n{}\n", head(AddressHead::AnsweredMoreOften));
    }
    for one in &found.duplicated {
        let line = say(AddressWords::Duplicated {
            class: class_word(one.class, look),
            numbers: &numbers(site, one.class, &one.numbers, look.language),
            times: one.times,
            stations: &names(&one.stations),
            explanation: &explanation(site, one.class, &one.explanations, look),
        });
        text.push_str(&paragraph(&line, 2, look.width));
    }
    text
}

/// Lines that were not read and why, by line.
fn unread_words(unread: &[UnreadLine], look: &Look) -> Vec<String> {
    let say = |one: &UnreadLine| {
        let line = one.line;
        match &one.reason {
            Unread::WithoutClass => AddressWords::WithoutClass { line }.say(look.language),
            Unread::WithoutNumber => AddressWords::WithoutNumber { line }.say(look.language),
            Unread::OpenQuote { column } => {
                AddressWords::OpenQuote { line, column: *column }.say(look.language)
            }
            Unread::NoAddress(text) => {
                AddressWords::NoAddressInLine { line, text: &plain(text) }.say(look.language)
            }
        }
    };
    unread.iter().map(say).collect()
}

fn explanation(site: &Site, class: DeviceClass, list: &[Explanation], look: &Look) -> String {
    let Some(first) = list.first() else {
        return AddressWords::NothingExplains.say(look.language);
    };
    let station = &plain(&id(site, first.station));
    let causes = &causes(site, class, first, look.language).join("; ");
    let words = match first.best {
        true => AddressWords::Probably { station, causes },
        false => AddressWords::Perhaps { station, causes },
    };
    words.say(look.language)
}

/// The numbers of an address and what each stands for: "0/12/1 (building 0, dwelling 12, extension 1)".
fn numbers(site: &Site, class: DeviceClass, numbers: &[u32], language: Language) -> String {
    let words: Vec<String> = numbers.iter().map(ToString::to_string).collect();
    let (joined, fields) = (words.join("/"), fields_of(site, class));
    if fields.len() != numbers.len() || numbers.len() < 2 {
        return joined;
    }
    let named: Vec<String> = fields
        .iter()
        .zip(numbers)
        .map(|(field, number)| format!("{} {number}", field_word(field.kind, language)))
        .collect();
    format!("{joined} ({})", named.join(", "))
}

fn id(site: &Site, station: usize) -> String {
    site.stations.get(station).map(|station| station.id.to_string()).unwrap_or_default()
}

fn causes(site: &Site, class: DeviceClass, explanation: &Explanation, language: Language) -> Vec<String> {
    let fields = fields_of(site, class);
    explanation
        .causes
        .iter()
        .map(|(index, cause)| {
            let name = match fields.get(*index) {
                None => AddressHead::FieldOfAddress.say(language),
                Some(field) if field.label.is_empty() => field_word(field.kind, language),
                Some(field) => field.label.as_str(),
            };
            AddressWords::Cause { field: &plain(name), what: &cause_words(cause, language) }.say(language)
        })
        .collect()
}

fn cause_words(cause: &Cause, language: Language) -> String {
    let number = |number: u32| number as usize;
    match *cause {
        Cause::ExchangedRotaries => AddressWords::RotariesExchanged,
        Cause::WrongRotary { switch, set, should } => {
            let (set, should) = (&format!("{set:X}"), &format!("{should:X}"));
            return AddressWords::WrongRotary { switch: number(switch), set, should }.say(language);
        }
        Cause::WrongDip { switch, should_be_on: true } => {
            AddressWords::SwitchShouldBeOn { switch: number(switch) }
        }
        Cause::WrongDip { switch, should_be_on: false } => {
            AddressWords::SwitchShouldBeOff { switch: number(switch) }
        }
        Cause::InvertedDip => AddressWords::SwitchesInverted,
        Cause::ReversedDip => AddressWords::SwitchesReversed,
        Cause::WrongJumper { jumper, should_be_fitted: true } => {
            AddressWords::JumperMissing { jumper: number(jumper) }
        }
        Cause::WrongJumper { jumper, should_be_fitted: false } => {
            AddressWords::JumperTooMuch { jumper: number(jumper) }
        }
        Cause::WrongKeyedNumber => AddressWords::WrongKeyedNumber,
        Cause::SeveralSwitches { count } => AddressWords::SeveralSwitches { count: number(count) },
    }
    .say(language)
}
