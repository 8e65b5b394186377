//! Which card each device, run and fitting is on.

use crate::language::Word;
use crate::subject::Subject;
use latchline_site::model::{Place, RunStart, RunStop, StationOwner};
use latchline_site::protectors::ProtectorAt;
use latchline_wiring::item::item_place;
use latchline_wiring::{Item, StandsAt};
use std::collections::{BTreeMap, BTreeSet};

/// What kind of place a card is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CardKind {
    /// Supplies and boxes.
    Cupboard,
    /// A door, with everything that is fitted there: index into `Site::entrances`.
    Door(usize),
    /// The stations of a landing, with the boxes beside them.
    Landing,
}

/// The card of one place.
#[derive(Debug, Clone, PartialEq)]
pub struct JobCard {
    /// What kind of place it is.
    pub kind: CardKind,
    /// Where.
    pub place: Place,
    /// What has terminals there, in the order of the card.
    pub items: Vec<Item>,
    /// Runs that start there: indices into `Site::runs`.
    pub runs: Vec<usize>,
}

/// Every card, in walking order.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct JobCards {
    /// The cards.
    pub cards: Vec<JobCard>,
    by_item: BTreeMap<Item, usize>,
}

/// Places are one where building, core and floor are.
type PlaceKey = (Option<usize>, Option<usize>, Option<usize>);

fn key(place: &Place) -> PlaceKey {
    (place.building, place.core, place.floor)
}

impl JobCards {
    /// Of a site.
    pub fn new(subject: &Subject<'_>) -> JobCards {
        let site = subject.site;
        // Boxes stand on the card of a landing unless a supply is there, or nobody lives there.
        let mut has_supply: BTreeSet<PlaceKey> = BTreeSet::new();
        let mut has_stations: BTreeSet<PlaceKey> = BTreeSet::new();
        for item in &subject.order {
            let place = key(item_place(site, *item));
            match *item {
                Item::Supply(_) => {
                    has_supply.insert(place);
                }
                Item::Station(station)
                    if !matches!(site.stations[station].owner, StationOwner::Entrance(_)) =>
                {
                    has_stations.insert(place);
                }
                _ => {}
            }
        }
        let mut cards = JobCards::default();
        let mut known: BTreeMap<(CardKind, PlaceKey), usize> = BTreeMap::new();
        for item in &subject.order {
            let place = key(item_place(site, *item));
            let kind = match *item {
                Item::Station(station) => match site.stations[station].owner {
                    StationOwner::Entrance(entrance) => CardKind::Door(entrance),
                    _ => CardKind::Landing,
                },
                Item::Box(_) if !has_supply.contains(&place) && has_stations.contains(&place) => {
                    CardKind::Landing
                }
                _ => CardKind::Cupboard,
            };
            let card = *known.entry((kind, place)).or_insert_with(|| {
                let place = item_place(site, *item).clone();
                cards.cards.push(JobCard { kind, place, items: Vec::new(), runs: Vec::new() });
                cards.cards.len() - 1
            });
            cards.add(card, *item);
        }
        for item in subject.wiring.items() {
            let owner = match item.stands_at() {
                StandsAt::Entrance(entrance) => Item::Station(site.entrances[entrance].station),
                StandsAt::StartOf(run) => start_item(site.runs[run].from),
                StandsAt::EndOf(run) => match site.runs[run].sections.last() {
                    Some(section) => stop_item(section.to),
                    None => continue,
                },
                StandsAt::Supply(supply) if item != Item::Supply(supply) => Item::Supply(supply),
                StandsAt::Supply(_) | StandsAt::Box(_) | StandsAt::Station(_) => continue,
            };
            if let Some(card) = cards.card_of(owner) {
                cards.add(card, item);
            }
        }
        for run in 0..site.runs.len() {
            if let Some(card) = cards.card_of(start_item(site.runs[run].from)) {
                cards.cards[card].runs.push(run);
            }
        }
        cards
    }

    fn add(&mut self, card: usize, item: Item) {
        self.cards[card].items.push(item);
        self.by_item.insert(item, card);
    }

    /// The card that an item is on: its index.
    pub fn card_of(&self, item: Item) -> Option<usize> {
        self.by_item.get(&item).copied()
    }

    /// The card on which a run is connected and read: that where it starts.
    pub fn card_of_run(&self, subject: &Subject<'_>, run: usize) -> Option<usize> {
        self.card_of(start_item(subject.site.runs[run].from))
    }
}

/// At what a run starts.
pub fn start_item(start: RunStart) -> Item {
    match start {
        RunStart::Supply(index) => Item::Supply(index),
        RunStart::Port { box_index, .. } => Item::Box(box_index),
        RunStart::Station(station) => Item::Station(station),
    }
}

/// To what a section leads.
pub fn stop_item(stop: RunStop) -> Item {
    match stop {
        RunStop::Station(station) => Item::Station(station),
        RunStop::BoxInput(index) | RunStop::BoxLink(index) => Item::Box(index),
    }
}

/// Which run a protector stands before; `None` of every other item, of one beside a door station and of one at the end of a run.
pub fn run_of_protector(item: Item) -> Option<usize> {
    match item {
        Item::Protector(ProtectorAt::StartOf(run)) => Some(run),
        _ => None,
    }
}

impl JobCard {
    /// What it is called by its neighbours and in the order of work.
    pub fn title(&self, subject: &Subject<'_>) -> String {
        format!("{} {}", self.kind_word(subject), self.place_words(subject))
    }

    /// What kind of card it is, in words.
    pub fn kind_word(&self, subject: &Subject<'_>) -> &'static str {
        subject.locale.word(match self.kind {
            CardKind::Cupboard => Word::CardCupboard,
            CardKind::Door(_) => Word::Door,
            CardKind::Landing if self.place.floor.is_some() => Word::CardLanding,
            CardKind::Landing => Word::Place,
        })
    }

    /// Where it is, in words; a door by its name.
    pub fn place_words(&self, subject: &Subject<'_>) -> String {
        let place = subject.place_in_words(&self.place);
        match self.kind {
            CardKind::Door(entrance) => {
                let name = &subject.site.entrances[entrance].id;
                if place.is_empty() { name.to_string() } else { format!("{name} ({place})") }
            }
            _ if place.is_empty() => subject.locale.word(Word::NoPlace).to_string(),
            _ => place,
        }
    }
}
