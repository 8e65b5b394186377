//! The plan of the work, made from what a pack is made from.

use crate::faults::Faults;
use crate::plan::{
    Field, HandoverLine, HandoverPart, PlanDevice, PlanFinding, PlanRun, PlanStage, PlanStep, Switch,
    WorkPlan,
};
use latchline_finding::Language;
use latchline_handover::commissioning::{Expected, Spot, Stage, Step, Taken, sheets};
use latchline_handover::job_cards::places::start_item;
use latchline_handover::language::Word;
use latchline_handover::tables::{
    Length, address_words, cautions, error_line, handover_table, item_title, kind_words, model_name,
    rows_of_item, setting_words, standing_findings,
};
use latchline_handover::{Cell, Row, Subject};
use latchline_site::addresses::{
    DeviceClass, SwitchSetting, class_words, fields_of, highest_number, settings,
};
use latchline_site::model::{RunStop, StationOwner};
use latchline_wiring::Item;
use latchline_words::phone::PhoneWord;
use std::collections::BTreeMap;

/// Most numbers of a field whose settings are carried; more are not explained, only told as unexpected.
const MOST_SETTINGS: u32 = 4096;
/// Most findings that are carried.
const MOST_FINDINGS: usize = 60;
/// What stands for something to be noted on site.
const TO_NOTE: &str = "…";

impl WorkPlan {
    /// Of what a pack is made from.
    pub fn new(subject: &Subject<'_>) -> WorkPlan {
        let locale = &subject.locale;
        let sheets = sheets(subject);
        let mut floors = Floors::default();
        let mut devices: Vec<PlanDevice> = Vec::new();
        let mut index_of: BTreeMap<Item, usize> = BTreeMap::new();
        let others = subject.wiring.items().into_iter().filter(|item| !subject.order.contains(item));
        for (place, item) in subject.order.iter().copied().chain(others).enumerate() {
            index_of.insert(item, devices.len());
            let number = if place < subject.order.len() { place + 1 } else { 0 };
            devices.push(device(subject, item, number, &mut floors));
        }
        let faults = Faults::of(subject);
        let mut made = Stages { texts: Texts::default(), taken: BTreeMap::new(), locale, faults: &faults };
        let device_of = |spot: Option<Spot>| {
            let item = spot.map(|spot| match spot {
                Spot::Item(item) => item,
                Spot::Run(run) => start_item(subject.site.runs[run].from),
            });
            item.and_then(|item| index_of.get(&item)).map_or(-1, |index| *index as i64)
        };
        let mut stages = Vec::new();
        for stage in sheets.iter().flat_map(|sheet| &sheet.stages) {
            stages.push(made.stage(stage, &device_of));
        }
        let notes = sheets.iter().flat_map(|sheet| sheet.notes.clone()).collect();
        let latched = subject.site.family().addresses.latched_at_power_up;
        WorkPlan {
            site: subject.site.title.clone(),
            revision: subject.stamp.revision.clone(),
            plan: subject.stamp.input_sha256.clone(),
            language: match locale.language {
                Language::English => "en",
                Language::German => "de",
            },
            verdict: locale.verdict(subject).to_string(),
            errors: error_line(subject).unwrap_or_default(),
            cautions: cautions(locale).into_iter().map(String::from).collect(),
            notes,
            floors: floors.names,
            devices,
            stages,
            texts: made.texts.list,
            handover: handover(subject),
            findings: findings(subject),
            classes: classes(subject),
            class_words: class_words().map(|(word, class)| (word, class.word())).collect(),
            runs: runs(subject, &index_of),
            latched: if latched { locale.word(Word::LatchedAtPowerUp).to_string() } else { String::new() },
            words: PhoneWord::ALL
                .iter()
                .map(|word| (word.name(), locale.spelled(word.say(locale.language))))
                .collect(),
            faults: faults.words(locale.language),
            fault_table: faults.packed(),
            taken: made.taken,
        }
    }
}

/// Words that are carried once.
#[derive(Default)]
struct Texts {
    list: Vec<String>,
    index: BTreeMap<String, usize>,
}

impl Texts {
    fn of(&mut self, text: &str) -> usize {
        if let Some(index) = self.index.get(text) {
            return *index;
        }
        self.list.push(text.to_string());
        self.index.insert(text.to_string(), self.list.len() - 1);
        self.list.len() - 1
    }
}

#[derive(Default)]
struct Floors {
    names: Vec<String>,
}

impl Floors {
    fn of(&mut self, name: String) -> usize {
        if let Some(index) = self.names.iter().position(|known| *known == name) {
            return index;
        }
        self.names.push(name);
        self.names.len() - 1
    }
}

struct Stages<'s> {
    texts: Texts,
    taken: BTreeMap<String, Taken>,
    locale: &'s latchline_handover::locale::Locale,
    faults: &'s Faults<'s>,
}

impl Stages<'_> {
    fn stage(&mut self, stage: &Stage, device_of: &dyn Fn(Option<Spot>) -> i64) -> PlanStage {
        let (name, power) = name_and_power(stage.word);
        let mut numbers: BTreeMap<String, usize> = BTreeMap::new();
        let mut steps = Vec::with_capacity(stage.steps.len());
        for step in &stage.steps {
            let device = device_of(step.spot);
            let key = format!("{name}/{}", step.key);
            let count = numbers.entry(step.key.clone()).or_default();
            *count += 1;
            let key = format!("{key}/{count}");
            if let Some(taken) = &step.taken {
                self.taken.insert(key.clone(), taken.clone());
            }
            steps.push(self.step(step, key, device));
        }
        PlanStage { name, letter: stage.letter, title: stage.title.clone(), power, steps }
    }

    fn step(&mut self, step: &Step, key: String, device: i64) -> PlanStep {
        let (kind, unit) = kind_and_unit(&step.expected);
        let cells = step.expected.cells(self.locale);
        let decimals = cells.iter().find_map(|cell| match cell {
            Cell::Quantity { decimals, .. } => Some(*decimals),
            _ => None,
        });
        let lowest = match step.expected {
            Expected::AtLeastMegohm { least_ohm, .. } => Some(least_ohm / 1e6),
            _ => cells[1].number(),
        };
        PlanStep {
            key,
            number: step.number,
            place: step.place.clone(),
            device,
            what: self.texts.of(&step.what),
            instrument: step.instrument.map_or(String::new(), |word| self.locale.word(word).to_string()),
            kind,
            unit,
            decimals: decimals.unwrap_or(1),
            nominal: cells[0].number(),
            lowest,
            highest: cells[2].number(),
            fault: step.taken.as_ref().and_then(|taken| self.faults.reading(taken)),
        }
    }
}

/// A stage's name in keys, and whether the bus is dead or live in it.
fn name_and_power(word: Word) -> (&'static str, &'static str) {
    match word {
        Word::StageWho => ("who", "off"),
        Word::StageIsolate => ("isolate", "off"),
        Word::StagePull => ("pull", "off"),
        Word::StageBareEnds => ("bare-ends", "off"),
        Word::StageTerminate => ("terminate", "off"),
        Word::StageSet => ("set", "off"),
        Word::StagePowerUp => ("power-up", "on"),
        Word::StageBatteries => ("batteries", "on"),
        Word::StageFirstStart => ("first-start", "on"),
        Word::StageDeviceList => ("device-list", "on"),
        Word::StageReadings => ("readings", "on"),
        Word::StageDoors => ("doors", "on"),
        Word::StageCalls => ("calls", "on"),
        Word::StageStations => ("stations", "on"),
        Word::StageMainsLost => ("mains-lost", "on"),
        _ => ("finish", "on"),
    }
}

fn kind_and_unit(expected: &Expected) -> (&'static str, &'static str) {
    use latchline_finding::Unit;
    match expected {
        Expected::Done | Expected::Polarity => ("tick", ""),
        Expected::Written => ("write", ""),
        Expected::Told => ("tell", ""),
        Expected::AtLeastMegohm { .. } => ("read", "Mohm"),
        Expected::Between(_, unit) | Expected::Unknown(unit) | Expected::Within { unit, .. } => match unit {
            Unit::Volt => ("read", "V"),
            Unit::Ampere => ("read", "A"),
            Unit::Ohm => ("read", "ohm"),
            Unit::Farad => ("read", "nF"),
            Unit::Second => ("read", "s"),
            _ => ("write", ""),
        },
    }
}

fn device(subject: &Subject<'_>, item: Item, number: usize, floors: &mut Floors) -> PlanDevice {
    let site = subject.site;
    let is_scheduled = number > 0;
    let (address, _) = address_words(subject, item);
    let plan = match item {
        Item::Station(station) => subject.assessment.addresses.stations.get(station),
        _ => None,
    };
    let numbers = plan.and_then(|address| address.numbers.clone()).unwrap_or_default();
    let switches = plan.map_or(Vec::new(), |address| {
        let fields = fields_of(site, address.class).iter().zip(&numbers);
        fields
            .filter_map(|(field, number)| Some(switch(subject, &field.label, &settings(field, *number)?)))
            .collect()
    });
    let dwelling = match item {
        Item::Station(station) => match site.stations[station].owner {
            StationOwner::Dwelling { dwelling, .. } => site.dwellings[dwelling].id.to_string(),
            _ => String::new(),
        },
        _ => String::new(),
    };
    PlanDevice {
        id: subject.name(item),
        number,
        what: if is_scheduled { kind_words(subject, item) } else { item_title(subject, item).into_owned() },
        model: if is_scheduled { model_name(subject, item).to_string() } else { String::new() },
        floor: floors.of(subject.place_words(item)),
        address,
        class: plan.map_or("", |address| address.class.word()),
        numbers,
        switches,
        wires: wires(subject, item),
        dwelling,
    }
}

/// The terminals of an item: as the wiring schedule has them, without the item's name and the box to tick.
fn wires(subject: &Subject<'_>, item: Item) -> Vec<Vec<String>> {
    let text = |cell: &Cell| match cell {
        Cell::WriteIn | Cell::Choice(_) => TO_NOTE.to_string(),
        cell => subject.locale.cell_text(cell, None),
    };
    let rows = rows_of_item(subject, item, Length::Whole).into_iter();
    rows.map(|cells| cells.iter().skip(1).take(8).map(text).collect()).collect()
}

fn positions(setting: &SwitchSetting) -> (&'static str, u32, u32, Vec<u32>) {
    let bits = |list: &[bool]| list.iter().map(|on| u32::from(*on)).collect();
    match setting {
        SwitchSetting::Rotary { positions, at } => ("rotary", *positions, 1, at.clone()),
        SwitchSetting::Dip { first_switch, on } => ("dip", 2, *first_switch, bits(on)),
        SwitchSetting::Jumpers { fitted } => ("jumpers", 2, 1, bits(fitted)),
        SwitchSetting::Keyed { digits } => {
            ("keyed", 10, 1, digits.chars().filter_map(|digit| digit.to_digit(16)).collect())
        }
    }
}

fn switch(subject: &Subject<'_>, label: &str, setting: &SwitchSetting) -> Switch {
    let (kind, positions, first, at) = positions(setting);
    let digits = match setting {
        SwitchSetting::Keyed { digits } => digits.clone(),
        _ => String::new(),
    };
    let words = setting_words(subject, setting);
    Switch { label: label.to_string(), kind, positions, first, at, digits, words }
}

fn classes(subject: &Subject<'_>) -> BTreeMap<&'static str, Vec<Field>> {
    let class = |class: DeviceClass| {
        let fields = fields_of(subject.site, class).iter().map(|field| {
            let most = highest_number(field).min(MOST_SETTINGS);
            let all = (0..=most).filter_map(|number| Some((number, positions(&settings(field, number)?))));
            let all: Vec<_> = all.collect();
            let (kind, first) = all.first().map_or(("keyed", 1), |(_, (kind, _, first, _))| (*kind, *first));
            let settings = all.into_iter().map(|(number, (_, _, _, at))| (number, at)).collect();
            Field { label: field.label.clone(), kind, first, settings }
        });
        (class.word(), fields.collect())
    };
    [DeviceClass::Indoor, DeviceClass::Door, DeviceClass::Management].map(class).into_iter().collect()
}

fn runs(subject: &Subject<'_>, index_of: &BTreeMap<Item, usize>) -> Vec<PlanRun> {
    let site = subject.site;
    let stop = |stop: RunStop| match stop {
        RunStop::Station(station) => index_of.get(&Item::Station(station)).copied(),
        RunStop::BoxInput(_) | RunStop::BoxLink(_) => None,
    };
    site.runs
        .iter()
        .map(|run| PlanRun {
            id: run.id.to_string(),
            from: site.start_id(run.from).to_string(),
            stops: run.sections.iter().filter_map(|section| stop(section.to)).collect(),
        })
        .collect()
}

fn handover(subject: &Subject<'_>) -> Vec<HandoverPart> {
    let mut parts: Vec<HandoverPart> = Vec::new();
    for row in handover_table(subject).rows {
        match row {
            Row::Heading(title) => parts.push(HandoverPart { title, lines: Vec::new() }),
            // What has a box to tick is for somebody to have seen.
            Row::Cells(cells) if cells.contains(&Cell::Tick) => {
                let Some(part) = parts.last_mut() else { continue };
                let key = format!("handover/{}", cells[0].number().unwrap_or_default());
                part.lines.push(HandoverLine { key, text: cells[1].words().to_string() });
            }
            Row::Cells(_) => {}
        }
    }
    parts.retain(|part| !part.lines.is_empty());
    parts
}

fn findings(subject: &Subject<'_>) -> Vec<PlanFinding> {
    let all = standing_findings(subject).into_iter().take(MOST_FINDINGS);
    all.map(|(place, text)| PlanFinding { place, text }).collect()
}
