//! What lands on which terminal, and by what.

use crate::colours::Conductor;
use crate::item::Item;
use crate::terminal::{Place, Pole, Terminal, TerminalSet};
use latchline_finding::Language;
use latchline_site::cables::{CableLength, CableOwner};
use latchline_site::model::Place as SitePlace;
use std::collections::BTreeMap;

/// A length of cable with both its ends.
#[derive(Debug, Clone, PartialEq)]
pub struct WiredCable {
    /// What is laid.
    pub laid: CableLength,
    /// Its designation, the same at both ends: `W3/2` is the second section of run W3.
    pub designation: String,
    /// Where it comes from.
    pub from: Place,
    /// Where it goes.
    pub to: Place,
}

/// A cable that must be there, of which the plan states neither kind nor length.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnstatedCable {
    /// Its designation.
    pub designation: String,
    /// How many conductors it needs.
    pub conductors: u32,
    /// Where it comes from.
    pub from: Place,
    /// Where it goes.
    pub to: Place,
}

/// By what a terminal is joined to another.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum By {
    /// A conductor of a cable.
    Conductor {
        /// Index into [`Wiring::cables`].
        cable: usize,
        /// Which of the cables side by side, from 1.
        piece: u32,
        /// The conductor.
        conductor: Conductor,
    },
    /// A conductor of a cable that the plan does not state.
    Unstated {
        /// Index into [`Wiring::unstated`].
        cable: usize,
    },
    /// The screen of a cable.
    Screen {
        /// Index into [`Wiring::cables`].
        cable: usize,
        /// Which of the cables side by side, from 1.
        piece: u32,
    },
    /// A protective conductor to the main earthing terminal, green-and-yellow.
    EarthConductor,
    /// A short wire at the same place.
    Link,
    /// A lead that comes with the part.
    OwnLead,
}

/// What lands on a terminal.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Landing {
    /// By what.
    pub by: By,
    /// Where it leads; `None` where that is outside the plan.
    pub other: Option<Terminal>,
}

/// All cables, and what lands where.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Wiring {
    /// The language of designations.
    pub language: Language,
    /// In the order of [`Site::cable_lengths`](latchline_site::model::Site::cable_lengths).
    pub cables: Vec<WiredCable>,
    /// Cables at doors that the plan does not state.
    pub unstated: Vec<UnstatedCable>,
    /// Every terminal of every item, free ones with an empty list.
    pub terminals: BTreeMap<Terminal, Vec<Landing>>,
    /// What is done with each end of the screen of a cable.
    pub screens: BTreeMap<Terminal, ScreenEnd>,
    /// The bars for earths and screens.
    pub earth_bars: Vec<EarthBar>,
}

/// The bar of one place.
#[derive(Debug, Clone, PartialEq)]
pub struct EarthBar {
    /// Where it is.
    pub place: SitePlace,
    /// The door at which it is, index into [`Site::entrances`](latchline_site::model::Site::entrances); `None` of the bar of a cupboard.
    pub door: Option<usize>,
    /// The terminals that are earthed on it: the first on terminal 1 of the bar, and so on.
    pub earthed: Vec<Terminal>,
}

/// What is done with an end of a screen: earthed at one end only, so that no current flows in it (common practice, no source).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ScreenEnd {
    /// Earthed here, and here only.
    Earthed,
    /// Joined to the screen of the cable before or beyond.
    JoinedOn,
    /// Cut back and insulated.
    Insulated,
}

impl Wiring {
    /// The terminals of one item in order.
    pub fn of_item(&self, item: Item) -> impl Iterator<Item = (Terminal, &[Landing])> {
        let first = Terminal { item, set: TerminalSet::FIRST, pole: Pole::FIRST };
        let of_item = self.terminals.range(first..).take_while(move |(terminal, _)| terminal.item == item);
        of_item.map(|(terminal, landings)| (*terminal, &landings[..]))
    }

    /// Every item with terminals, in the order of the terminals.
    pub fn items(&self) -> Vec<Item> {
        let mut items: Vec<Item> = self.terminals.keys().map(|terminal| terminal.item).collect();
        items.dedup();
        items
    }

    /// Joins two terminals.
    pub(crate) fn join(&mut self, one: Terminal, by: By, other: Terminal) {
        let landing = |other| Landing { by: by.clone(), other: Some(other) };
        let (at_one, at_other) = (landing(other), landing(one));
        self.terminals.entry(one).or_default().push(at_one);
        self.terminals.entry(other).or_default().push(at_other);
    }

    /// The cable of an owner: its index.
    pub(crate) fn cable_of(&self, owner: CableOwner) -> Option<usize> {
        self.cables.iter().position(|cable| cable.laid.owner == owner)
    }
}
