//! What is different between two versions of a site, as it is told.

use super::same::SAME_M;
use super::values::KeyChange;
use crate::addresses::SwitchSetting;
use crate::bill::BillKind;
use crate::cables::DoorCable;
use crate::model::Site;
use latchline_finding::{Both, ElementId, Money};

/// More or less of a part, or of a cable in metres.
#[derive(Debug, Clone, PartialEq)]
pub struct QuantityChange {
    /// What kind of thing.
    pub kind: BillKind,
    /// Name in the catalogue; of what is in none, what it is, in English.
    pub name: String,
    /// Title for documents.
    pub title: Both,
    /// Pieces, or metres of cable; negative where there is less.
    pub quantity: f64,
    /// What that costs; `None` without a price.
    pub cost: Option<Money>,
}

/// One thing that is another one than before.
#[derive(Debug, Clone, PartialEq)]
pub struct Swap {
    /// The element.
    pub element: ElementId,
    /// What it was; `None` if it is new.
    pub old: Option<String>,
    /// What it is; `None` if it is gone.
    pub new: Option<String>,
}

/// Work on a run.
#[derive(Debug, Clone, PartialEq)]
pub enum RunWork {
    /// It is new: cable, length in metres, from and to.
    New {
        /// Cable.
        cable: String,
        /// Length in metres.
        length_m: f64,
        /// Where it starts.
        from: ElementId,
        /// What it leads to.
        to: Vec<ElementId>,
        /// Metres of it that are there already.
        there_m: f64,
    },
    /// It is no longer used.
    Gone,
    /// It is another cable, or an old one is pulled anew.
    Cable {
        /// Cable before.
        old: String,
        /// Cable after.
        new: String,
        /// Length in metres.
        length_m: f64,
    },
    /// It is another cable, which is there already.
    InPlace {
        /// Cable before.
        old: String,
        /// Cable after.
        new: String,
    },
    /// Its pairs need further cables beside the one that is there.
    Beside {
        /// Cable.
        cable: String,
        /// How many.
        cables: u32,
        /// Length in metres.
        length_m: f64,
    },
    /// It goes on behind its last stop: metres more, the stop from which it goes on, and to what.
    Extended {
        /// Cable.
        cable: String,
        /// Metres more.
        more_m: f64,
        /// Its last stop before.
        after: ElementId,
        /// Where it goes on to.
        to: Vec<ElementId>,
        /// Metres of them that are there already.
        there_m: f64,
    },
    /// It ends sooner: metres less, its last stop now, and what it no longer reaches.
    Shortened {
        /// Cable.
        cable: String,
        /// Metres that are no longer used.
        less_m: f64,
        /// Its last stop now.
        at: ElementId,
        /// What it no longer reaches.
        without: Vec<ElementId>,
    },
    /// Its sections are of other lengths, but it is as long as before.
    Sections {
        /// Before, in metres.
        old_m: Vec<f64>,
        /// After.
        new_m: Vec<f64>,
    },
    /// It is longer or shorter, in metres.
    Length {
        /// Whether the cable is there already, so that only what is known of it is another length.
        is_there: bool,
        /// Cable.
        cable: String,
        /// Before.
        old_m: f64,
        /// After.
        new_m: f64,
    },
    /// It starts elsewhere.
    From {
        /// Before.
        old: ElementId,
        /// After.
        new: ElementId,
    },
    /// It leads to others, or in another order.
    Stops {
        /// Before.
        old: Vec<ElementId>,
        /// After.
        new: Vec<ElementId>,
    },
    /// Another number of pairs in parallel.
    Pairs {
        /// Before.
        old: u32,
        /// After.
        new: u32,
    },
    /// A terminator comes or goes on its last station.
    Terminator {
        /// Whether it is set now.
        set: bool,
    },
}

/// A run with the work on it.
#[derive(Debug, Clone, PartialEq)]
pub struct OtherRun {
    /// The run.
    pub run: ElementId,
    /// The work.
    pub work: RunWork,
}

/// A cable at a door.
#[derive(Debug, Clone, PartialEq)]
pub struct CableAtDoor {
    /// Name in the catalogue.
    pub cable: String,
    /// Length in metres.
    pub length_m: f64,
    /// Pairs in parallel.
    pub pairs: u32,
}

impl CableAtDoor {
    /// Whether it can stay where another one is wanted: the same cable, and long enough.
    pub fn is_of_use_for(&self, wanted: &CableAtDoor) -> bool {
        self.cable == wanted.cable && self.length_m + SAME_M > wanted.length_m
    }

    /// Cables that are pulled for it beside one that stays: where that has pairs to spare, none.
    pub fn cables_beyond(&self, stays: Option<&CableAtDoor>, site: &Site) -> u32 {
        let pairs = site.catalogue.cables.get(&self.cable).map_or(1, |cable| cable.pairs.value.max(1));
        let cables = |one: &CableAtDoor| one.pairs.max(1).div_ceil(pairs);
        cables(self).saturating_sub(stays.map_or(0, cables))
    }
}

/// A cable at a door that comes, goes or is another one.
#[derive(Debug, Clone, PartialEq)]
pub struct OtherCableAtDoor {
    /// The entrance.
    pub entrance: ElementId,
    /// What it leads to.
    pub to: DoorCable,
    /// The cable before; `None` if it is new.
    pub old: Option<CableAtDoor>,
    /// The cable after; `None` if it is gone.
    pub new: Option<CableAtDoor>,
    /// Cables that are pulled for it: none where one that is there has pairs to spare.
    pub pulled: u32,
}

/// Switches that are set to other positions.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Set {
    /// The station.
    pub station: ElementId,
    /// Its switches before: label and setting, by field; empty if it had no address.
    pub old: Vec<(String, SwitchSetting)>,
    /// Its switches after.
    pub new: Vec<(String, SwitchSetting)>,
}

/// Everything that is different on site.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Changes {
    /// What is bought or taken back, in the order of the bill.
    pub quantities: Vec<QuantityChange>,
    /// Extra material, the sum of what `quantities` cost; prices that are not known are not in it.
    pub material: Money,
    /// Currencies of the two catalogues, old and new, where they are not the same: nothing is priced then.
    pub currencies: Option<[String; 2]>,
    /// Work in minutes: what is taken out, put in, pulled and wired again.
    pub minutes: f64,
    /// Lines of `quantities` without a price.
    pub unpriced: usize,
    /// Supplies, boxes and stations that are new, gone or another model.
    pub models: Vec<Swap>,
    /// What stands in another place than before, and where what is new stands, in words of the user's own names.
    pub places: Vec<Swap>,
    /// Work on runs, in the order of the new file, runs that are gone last.
    pub runs: Vec<OtherRun>,
    /// Cables at doors that come, go or are others, by entrance.
    pub at_doors: Vec<OtherCableAtDoor>,
    /// Keys of the site file that differ and that the lists above do not tell.
    pub keys: Vec<KeyChange>,
    /// Stations that are set to other positions.
    pub set: Vec<Set>,
    /// Dwellings to enter.
    pub enters: Vec<ElementId>,
}
