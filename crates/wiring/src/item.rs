//! What has terminals: its designation, its place, and the order in which one walks past it.

use latchline_finding::Language;
use latchline_site::model::{LockPart, Place, Site, StationOwner, Suppression};
use latchline_site::protectors::ProtectorAt;
use latchline_words::terminals::DesignationMark;

/// Something with terminals.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Item {
    /// Index into [`Site::supplies`].
    Supply(usize),
    /// Index into [`Site::boxes`].
    Box(usize),
    /// Index into [`Site::stations`].
    Station(usize),
    /// A surge protector.
    Protector(ProtectorAt),
    /// A connector in a lock's circuit.
    Joint {
        /// Index into [`Site::entrances`].
        entrance: usize,
        /// Index into its locks.
        lock: usize,
        /// Which one of that circuit, from 1.
        number: usize,
    },
    /// A lock of an entrance.
    Lock {
        /// Index into [`Site::entrances`].
        entrance: usize,
        /// Index into its locks.
        lock: usize,
    },
    /// A part of a lock's circuit.
    Part {
        /// Index into [`Site::entrances`].
        entrance: usize,
        /// Index into its locks.
        lock: usize,
        /// Which part.
        part: LockPart,
    },
    /// What lies across a lock.
    Suppressor {
        /// Index into [`Site::entrances`].
        entrance: usize,
        /// Index into its locks.
        lock: usize,
    },
    /// A light at a door.
    Light {
        /// Index into [`Site::entrances`].
        entrance: usize,
        /// Index into its lights.
        light: usize,
    },
    /// The supply of its own of a light.
    LightSupply {
        /// Index into [`Site::entrances`].
        entrance: usize,
        /// Index into its lights.
        light: usize,
    },
    /// An accessory module of a door station.
    Module {
        /// Index into [`Site::entrances`].
        entrance: usize,
        /// Index into its accessories.
        module: usize,
    },
    /// The contact at an alarm input of an entrance's door station.
    AlarmContact {
        /// Index into [`Site::entrances`].
        entrance: usize,
        /// Index into its alarm inputs.
        input: usize,
    },
    /// A battery of a supply, with the fuse in its lead.
    Battery {
        /// Index into [`Site::supplies`].
        supply: usize,
        /// Which of its batteries, from 1.
        number: u32,
    },
    /// The resistor at that contact.
    EndOfLine {
        /// Index into [`Site::entrances`].
        entrance: usize,
        /// Index into its alarm inputs.
        input: usize,
    },
}

/// At what an item stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StandsAt {
    /// It is a supply: index into [`Site::supplies`].
    Supply(usize),
    /// It is a box: index into [`Site::boxes`].
    Box(usize),
    /// It is a station: index into [`Site::stations`].
    Station(usize),
    /// Where a run starts: index into [`Site::runs`].
    StartOf(usize),
    /// Where a run ends: index into [`Site::runs`].
    EndOf(usize),
    /// At an entrance, fitted there: index into [`Site::entrances`].
    Entrance(usize),
}

impl Item {
    /// At what it stands.
    pub fn stands_at(self) -> StandsAt {
        match self {
            Item::Supply(index) | Item::Battery { supply: index, .. } => StandsAt::Supply(index),
            Item::Box(index) => StandsAt::Box(index),
            Item::Station(index) => StandsAt::Station(index),
            Item::Protector(ProtectorAt::StartOf(run)) => StandsAt::StartOf(run),
            Item::Protector(ProtectorAt::EndOf(run)) => StandsAt::EndOf(run),
            Item::Protector(ProtectorAt::Entrance(entrance))
            | Item::Joint { entrance, .. }
            | Item::Lock { entrance, .. }
            | Item::Part { entrance, .. }
            | Item::Suppressor { entrance, .. }
            | Item::Light { entrance, .. }
            | Item::LightSupply { entrance, .. }
            | Item::Module { entrance, .. }
            | Item::AlarmContact { entrance, .. }
            | Item::EndOfLine { entrance, .. } => StandsAt::Entrance(entrance),
        }
    }

    /// Its designation; what is at a door is named after the entrance. Names of the site file are the same in every language, what the
    /// program adds to them is a word of that language.
    pub fn name(self, site: &Site, language: Language) -> String {
        let entrance = |index: usize| &site.entrances[index].id;
        let say = |mark: DesignationMark| mark.say(language);
        let of_lock = |at: usize, mark: DesignationMark, lock: usize| {
            format!("{}/{}", entrance(at), numbered(say(mark), lock))
        };
        match self {
            Item::Supply(index) => site.supplies[index].id.to_string(),
            Item::Box(index) => site.boxes[index].id.to_string(),
            Item::Station(index) => site.stations[index].id.to_string(),
            Item::Battery { supply, number } => {
                format!("{}/{}{number}", site.supplies[supply].id, say(DesignationMark::Battery))
            }
            Item::Protector(ProtectorAt::Entrance(index)) => {
                format!("{}/{}", entrance(index), say(DesignationMark::Surge))
            }
            Item::Protector(ProtectorAt::StartOf(index)) => {
                format!("{}/{}", site.runs[index].id, say(DesignationMark::Surge))
            }
            Item::Protector(ProtectorAt::EndOf(index)) => {
                format!("{}/{}", site.runs[index].id, say(DesignationMark::SurgeAtEnd))
            }
            Item::Joint { entrance: at, lock, number } => {
                format!(
                    "{}-{}{number}",
                    of_lock(at, DesignationMark::Lock, lock),
                    say(DesignationMark::Joint)
                )
            }
            Item::Lock { entrance: at, lock } => of_lock(at, DesignationMark::Lock, lock),
            Item::Part { entrance: at, lock, part } => of_lock(at, part_mark(part), lock),
            Item::Suppressor { entrance: at, lock } => {
                let fitted = site.entrances[at].locks[lock].suppression.as_ref().map(|stated| stated.value);
                of_lock(at, suppressor_mark(fitted.unwrap_or(Suppression::None)), lock)
            }
            Item::Light { entrance: at, light } => {
                format!("{}/{}{}", entrance(at), say(DesignationMark::Light), light + 1)
            }
            Item::LightSupply { entrance: at, light } => {
                let [mark, supply] = [DesignationMark::Light, DesignationMark::Supply].map(say);
                format!("{}/{mark}{}-{supply}", entrance(at), light + 1)
            }
            Item::Module { entrance: at, module } => {
                format!("{}/{}{}", entrance(at), say(DesignationMark::Module), module + 1)
            }
            Item::AlarmContact { entrance: at, input } => {
                format!("{}/{}{}", entrance(at), say(DesignationMark::Alarm), input + 1)
            }
            Item::EndOfLine { entrance: at, input } => {
                let [mark, resistor] = [DesignationMark::Alarm, DesignationMark::Resistor].map(say);
                format!("{}/{mark}{}-{resistor}", entrance(at), input + 1)
            }
        }
    }
}

/// "lock", "lock2", ...
fn numbered(mark: &str, lock: usize) -> String {
    if lock == 0 { mark.to_string() } else { format!("{mark}{}", lock + 1) }
}

fn part_mark(part: LockPart) -> DesignationMark {
    match part {
        LockPart::ExitButton => DesignationMark::ExitButton,
        LockPart::EmergencyRelease => DesignationMark::EmergencyRelease,
        LockPart::FireContact => DesignationMark::FireContact,
        LockPart::DoorContact => DesignationMark::DoorContact,
        LockPart::Relay => DesignationMark::Relay,
        LockPart::Supply => DesignationMark::Supply,
    }
}

fn suppressor_mark(fitted: Suppression) -> DesignationMark {
    match fitted {
        Suppression::None => DesignationMark::Nothing,
        Suppression::Diode => DesignationMark::Diode,
        Suppression::Clamp => DesignationMark::Clamp,
        Suppression::Varistor => DesignationMark::Varistor,
    }
}

/// Devices in walking order: what stands in no building first, then building by building, core by
/// core, floor by floor from the lowest; on a floor supplies, boxes, doors, management stations and
/// dwellings in the order of the site file.
pub fn walking_order(site: &Site) -> Vec<Item> {
    let mut order: Vec<_> = Vec::new();
    let key = |place: &Place, class: usize, index: usize, part: usize| {
        ((place.building, place.core, place.floor), class, index, part)
    };
    for (index, supply) in site.supplies.iter().enumerate() {
        order.push((key(&supply.place, 0, index, 0), Item::Supply(index)));
    }
    for (index, distribution_box) in site.boxes.iter().enumerate() {
        order.push((key(&distribution_box.place, 1, index, 0), Item::Box(index)));
    }
    for (index, station) in site.stations.iter().enumerate() {
        let (class, of, part) = match station.owner {
            StationOwner::Entrance(entrance) => (2, entrance, 0),
            StationOwner::Management(management) => (3, management, 0),
            StationOwner::Dwelling { dwelling, ordinal } => (4, dwelling, ordinal),
        };
        order.push((key(site.station_place(station), class, of, part), Item::Station(index)));
    }
    order.sort_by_key(|entry| entry.0);
    order.into_iter().map(|(_, item)| item).collect()
}

/// Where an item is.
pub fn item_place(site: &Site, item: Item) -> &Place {
    match item.stands_at() {
        StandsAt::Supply(index) => &site.supplies[index].place,
        StandsAt::Box(index) => &site.boxes[index].place,
        StandsAt::Station(index) => site.station_place(&site.stations[index]),
        StandsAt::StartOf(run) => site.start_place(site.runs[run].from),
        // A run that is read has a section.
        StandsAt::EndOf(run) => match site.runs[run].sections.last() {
            Some(section) => site.stop_place(section.to),
            None => site.start_place(site.runs[run].from),
        },
        StandsAt::Entrance(index) => &site.entrances[index].place,
    }
}

/// Location and product in the manner of IEC 81346-1: `+A+2 -A-12`, from the user's own names.
pub fn reference_designation(site: &Site, item: Item, language: Language) -> String {
    let place = item_place(site, item);
    let mut text = String::new();
    if let Some(building) = place.building.map(|index| &site.buildings[index]) {
        text.push_str(&format!("+{}", building.id));
        if let Some(core) = place.core {
            text.push_str(&format!("+{}", building.cores[core].value));
        }
        if let Some(floor) = place.floor {
            text.push_str(&format!("+{}", building.floors[floor].value));
        }
        text.push(' ');
    }
    text.push_str(&format!("-{}", item.name(site, language)));
    text
}
