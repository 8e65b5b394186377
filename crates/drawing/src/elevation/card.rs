//! What is written on the card of each device.

use crate::language::{Lettering, Phrase, Word};
use latchline_assess::rules::codes;
use latchline_assess::{DeviceResult, MarginStep as Step, SourceSummary};
use latchline_finding::{Finding, Severity};
use latchline_site::catalogue::{BoxRole, Media, StationKind};
use latchline_site::model::{Place, RunStart, RunStop, Site};
use std::collections::BTreeMap;

/// What a card stands for, which decides its symbol.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum CardKind {
    Supply,
    Distributor,
    BranchBox,
    Door,
    Management,
    VideoStation,
    AudioStation,
}

impl CardKind {
    pub(super) const ALL: [CardKind; 7] = [
        CardKind::Supply,
        CardKind::Distributor,
        CardKind::BranchBox,
        CardKind::Door,
        CardKind::Management,
        CardKind::VideoStation,
        CardKind::AudioStation,
    ];

    /// Name of its block in CAD.
    pub(super) fn block(self) -> &'static str {
        match self {
            CardKind::Supply => "SUPPLY",
            CardKind::Distributor => "DISTRIBUTOR",
            CardKind::BranchBox => "BRANCH_BOX",
            CardKind::Door => "DOOR_STATION",
            CardKind::Management => "MANAGEMENT_STATION",
            CardKind::VideoStation => "VIDEO_STATION",
            CardKind::AudioStation => "AUDIO_STATION",
        }
    }

    /// Its word in the legend.
    pub(super) fn word(self) -> Word {
        match self {
            CardKind::Supply => Word::Supply,
            CardKind::Distributor => Word::Distributor,
            CardKind::BranchBox => Word::BranchBox,
            CardKind::Door => Word::DoorStation,
            CardKind::Management => Word::ManagementStation,
            CardKind::VideoStation => Word::VideoStation,
            CardKind::AudioStation => Word::AudioStation,
        }
    }

    /// Its place in a cell, from the riser outward.
    pub(super) fn rank(self) -> u8 {
        match self {
            CardKind::Supply => 0,
            CardKind::Distributor | CardKind::BranchBox => 1,
            CardKind::Door | CardKind::Management => 2,
            CardKind::VideoStation | CardKind::AudioStation => 3,
        }
    }
}

/// Something that is wrong, or doubtful, with an element.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Trouble {
    pub(super) severity: Severity,
    /// The code in plain words.
    pub(super) words: String,
    /// Whether the voltage is above what the element takes: the margin above its lowest says nothing of that.
    pub(super) is_over: bool,
}

/// A device as it is drawn.
#[derive(Debug, Clone)]
pub(super) struct Card {
    pub(super) element: String,
    pub(super) kind: CardKind,
    /// Model name.
    pub(super) model: String,
    /// Who lives there; empty where nobody asks for it.
    pub(super) resident: String,
    /// Address in words; empty without one, and where nothing asks for it.
    pub(super) address: String,
    pub(super) place: Place,
    /// Second line, left.
    pub(super) figure: String,
    /// Second line, right.
    pub(super) margin: String,
    /// Third line: the run that leads here.
    pub(super) run: String,
    pub(super) step: Option<Step>,
    pub(super) trouble: Option<Trouble>,
    /// What is said large of a number that another device has too.
    pub(super) double: Option<String>,
    /// Everything in one sentence, for those who cannot see the card.
    pub(super) title: String,
    /// Place in the order in which runs reach devices.
    pub(super) visit: usize,
}

impl Card {
    /// The line below its name: its model, and who lives there where that is asked for.
    pub(super) fn model_line(&self) -> String {
        if self.resident.is_empty() {
            self.model.clone()
        } else {
            format!("{} · {}", self.model, self.resident)
        }
    }
}

/// Indices of cards: supplies, then boxes, then stations.
#[derive(Debug, Clone, Copy)]
pub(super) struct CardIndex {
    supplies: usize,
    boxes: usize,
}

impl CardIndex {
    pub(super) fn new(site: &Site) -> Self {
        Self { supplies: site.supplies.len(), boxes: site.boxes.len() }
    }

    pub(super) fn distribution_box(self, index: usize) -> usize {
        self.supplies + index
    }

    pub(super) fn station(self, index: usize) -> usize {
        self.supplies + self.boxes + index
    }

    pub(super) fn start(self, start: RunStart) -> usize {
        match start {
            RunStart::Supply(supply) => supply,
            RunStart::Port { box_index, .. } => self.distribution_box(box_index),
            RunStart::Station(station) => self.station(station),
        }
    }

    pub(super) fn stop(self, stop: RunStop) -> usize {
        match stop {
            RunStop::Station(station) => self.station(station),
            RunStop::BoxInput(index) | RunStop::BoxLink(index) => self.distribution_box(index),
        }
    }
}

/// The gravest standing finding of each element. A finding about a port belongs to its box.
pub(super) fn troubles(site: &Site, findings: &[Finding], lettering: Lettering) -> BTreeMap<String, Trouble> {
    let mut known: BTreeMap<String, Trouble> = BTreeMap::new();
    for finding in findings.iter().filter(|finding| finding.accepted.is_none()) {
        let Some(element) = &finding.element else { continue };
        let port_of = element.as_str().rsplit_once('.').map(|(box_name, _)| box_name);
        let owner = site.boxes.iter().map(|entry| entry.id.as_str()).find(|id| port_of == Some(id));
        let element = owner.unwrap_or(element.as_str()).to_string();
        let trouble = Trouble {
            severity: finding.severity,
            words: lettering.trouble(finding.code.as_str()),
            is_over: finding.code == codes::VOLTAGE_TOO_HIGH,
        };
        match known.get_mut(&element) {
            Some(graver) if graver.severity >= trouble.severity => {}
            Some(lesser) => *lesser = trouble,
            None => {
                known.insert(element, trouble);
            }
        }
    }
    known
}

/// One card for each supply, box and station.
pub(super) fn cards(
    site: &Site,
    (devices, sources): (&[DeviceResult], &[SourceSummary]),
    troubles: &BTreeMap<String, Trouble>,
    lettering: Lettering,
) -> Vec<Card> {
    let index = CardIndex::new(site);
    let results: BTreeMap<&str, &DeviceResult> =
        devices.iter().map(|device| (device.id.as_str(), device)).collect();
    let thin_v = site.policy.thin_margin.value.as_volts();
    let mut cards: Vec<Card> = Vec::new();
    let mut add = |element: &str, kind: CardKind, model: &str, place: &Place| {
        let mut card = Card {
            element: element.to_string(),
            kind,
            model: model.to_string(),
            resident: String::new(),
            address: String::new(),
            place: place.clone(),
            figure: String::new(),
            margin: String::new(),
            run: String::new(),
            step: None,
            trouble: troubles.get(element).cloned(),
            double: None,
            title: String::new(),
            visit: usize::MAX,
        };
        if let Some(result) = results.get(element) {
            voltage(&mut card, result, thin_v, lettering);
        }
        if card.trouble.as_ref().is_some_and(|trouble| trouble.is_over) {
            (card.step, card.margin) = (None, String::new());
        }
        cards.push(card);
    };
    for supply in &site.supplies {
        add(supply.id.as_str(), CardKind::Supply, &supply.model.value, &supply.place);
    }
    for entry in &site.boxes {
        let kind = match site.box_model(entry).role.value {
            BoxRole::Distributor => CardKind::Distributor,
            BoxRole::BranchBox => CardKind::BranchBox,
        };
        add(entry.id.as_str(), kind, &entry.model.value, &entry.place);
    }
    for station in &site.stations {
        let model = site.station_model(station);
        let kind = match (model.kind.value, model.media.value) {
            (StationKind::Door, _) => CardKind::Door,
            (StationKind::Management, _) => CardKind::Management,
            (StationKind::Indoor, Media::Video) => CardKind::VideoStation,
            (StationKind::Indoor, Media::Audio) => CardKind::AudioStation,
        };
        add(station.id.as_str(), kind, &station.model.value, site.station_place(station));
    }
    for summary in sources {
        let supplies = 0..site.supplies.len();
        if let Some(supply) = supplies.into_iter().find(|supply| site.supplies[*supply].id == summary.id) {
            let limit = summary.current.limit_a;
            cards[supply].figure = match (summary.current.current_a, limit) {
                (Some(current), Some(limit)) => lettering.say(&Phrase::OfLimit {
                    value: &lettering.rounded_up(current),
                    limit: &format!("{} A", lettering.0.number(limit, 2)),
                }),
                (Some(current), None) => format!("{} A", lettering.rounded_up(current)),
                (None, _) => String::from(lettering.word(Word::NoOperatingPoint)),
            };
        }
    }
    for run in &site.runs {
        let conductor = lettering.conductor(site, run);
        for section in &run.sections {
            let length = lettering.length(section.length.value.as_metres());
            let card = &mut cards[index.stop(section.to)];
            if card.run.is_empty() || matches!(section.to, RunStop::BoxInput(_)) {
                card.run = format!("{} · {length}", run.id);
            }
            let (length, conductor, run) = (length.as_str(), conductor.as_str(), run.id.as_str());
            let led = lettering.say(&Phrase::SectionOn { length, conductor, run });
            card.title = format!("{}, {led}", card.title);
        }
    }
    for card in &mut cards {
        let mut title = format!("{} {}", lettering.word(card.kind.word()), card.element);
        if !card.figure.is_empty() {
            title = format!("{title}, {}", card.figure);
        }
        if !card.margin.is_empty() {
            title = format!("{title}, {}", lettering.say(&Phrase::Margin { margin: &card.margin }));
        }
        card.title = title + &card.title;
        if let Some(trouble) = &card.trouble {
            let severity = lettering.word(crate::language::severity_word(trouble.severity));
            card.title = format!("{}; {severity}: {}", card.title, trouble.words);
        }
    }
    visit(site, index, &mut cards);
    cards
}

fn voltage(card: &mut Card, result: &DeviceResult, thin_v: f64, lettering: Lettering) {
    let margin = result.worst.margin_v();
    card.step = Some(Step::of(margin, thin_v));
    match result.worst.adverse_v {
        Some(voltage) => {
            card.figure = format!("{} V", lettering.rounded_down(voltage));
            let sign = if margin >= 0.0 { "+" } else { "" };
            card.margin = format!("{sign}{} V", lettering.rounded_down(margin)).replace('-', "−");
        }
        None => card.figure = String::from(lettering.word(Word::NoVoltage)),
    }
}

/// Numbers the cards in the order in which the wiring reaches them, so that neighbours on a chain
/// stand side by side. What nothing reaches keeps the order of the site, after the rest.
fn visit(site: &Site, index: CardIndex, cards: &mut [Card]) {
    let mut runs_from: BTreeMap<usize, Vec<(u32, usize)>> = BTreeMap::new();
    for (number, run) in site.runs.iter().enumerate() {
        let port = if let RunStart::Port { port, .. } = run.from { port } else { 0 };
        runs_from.entry(index.start(run.from)).or_default().push((port, number));
    }
    for runs in runs_from.values_mut() {
        runs.sort_unstable();
    }
    let mut next = 0;
    let mut number = |card: usize, cards: &mut [Card]| {
        if cards[card].visit == usize::MAX {
            cards[card].visit = next;
            next += 1;
        }
    };
    let mut expanded = vec![false; cards.len()];
    let mut pending: Vec<usize> = (0..site.supplies.len()).rev().collect();
    while let Some(card) = pending.pop() {
        if std::mem::replace(&mut expanded[card], true) {
            continue;
        }
        number(card, cards);
        // Along each run first, then what branches off its stops.
        let mut reached: Vec<usize> = Vec::new();
        for (_, run) in runs_from.get(&card).map_or(&[][..], Vec::as_slice) {
            reached.extend(site.runs[*run].sections.iter().map(|section| index.stop(section.to)));
        }
        reached.iter().for_each(|stop| number(*stop, cards));
        pending.extend(reached.into_iter().rev());
    }
    for card in 0..cards.len() {
        number(card, cards);
    }
}
