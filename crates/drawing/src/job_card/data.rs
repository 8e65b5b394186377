//! What job cards say, ready to be shown.

use latchline_scene::Area;
use latchline_site::addresses::SwitchSetting;

/// Every card of a site, and the words that all of them share.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CardSet {
    /// The cards in walking order.
    pub cards: Vec<JobCardPicture>,
    /// What must be known to read them, once on every card.
    pub legend: String,
    /// Heads of the columns: expected, lowest, highest, reading.
    pub heads: [String; 4],
    /// What a block says that goes on from another column.
    pub continued: String,
    /// What stands over the steps without power, and over those with it.
    pub power: [String; 2],
    /// The caution in the title block of each sheet.
    pub caution: String,
}

/// The card of one place.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct JobCardPicture {
    /// What kind of place it is.
    pub kind: String,
    /// The place.
    pub place: String,
    /// Which card of how many.
    pub number: String,
    /// The cards before and after.
    pub neighbours: Vec<String>,
    /// Which power state is wanted.
    pub power: String,
    /// Its devices and runs.
    pub blocks: Vec<CardBlock>,
}

/// One device or run.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CardBlock {
    /// What it shows, each in one block only.
    pub element: String,
    /// Designation, large.
    pub designation: String,
    /// What it is.
    pub what: String,
    /// What is said large of it: that another device has its number too.
    pub warning: Option<String>,
    /// Further lines: address, what hangs on it.
    pub lines: Vec<String>,
    /// Code to scan.
    pub code: Option<CardCode>,
    /// Its terminals.
    pub strip: Vec<StripSet>,
    /// Switches to set: the label beside each, and its position.
    pub switches: Vec<(String, SwitchSetting)>,
    /// Pictures of a door's locks, across the sheet.
    pub pictures: Vec<DoorPicture>,
    /// What is read and done, in order.
    pub steps: Vec<CardStep>,
    /// What is written down of it: serial number, version.
    pub blanks: Vec<String>,
}

/// A code to scan, without quiet zone: modules are 1 by 1.
#[derive(Debug, Clone, PartialEq)]
pub struct CardCode {
    /// Dark modules, beside a quiet zone.
    pub areas: Vec<Area>,
    /// Edge with quiet zone, in modules.
    pub edge: usize,
}

/// The picture of a lock: indices into the assessment's doors and its locks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct DoorPicture {
    /// The door.
    pub door: usize,
    /// The lock.
    pub lock: usize,
}

/// Terminals that belong together.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct StripSet {
    /// As printed on the device.
    pub mark: String,
    /// Each terminal.
    pub terminals: Vec<StripTerminal>,
}

/// A terminal.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct StripTerminal {
    /// As printed beside it.
    pub pole: String,
    /// What lands on it.
    pub wires: Vec<CardWire>,
    /// What must be known of it; of one that stays free, why.
    pub remark: String,
}

/// What lands on a terminal.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CardWire {
    /// Its colour.
    pub colour: WireColour,
    /// Its cable and pair, or by what else it is joined.
    pub cable: String,
    /// Where it leads.
    pub other: String,
}

/// The colour of a conductor.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum WireColour {
    /// By letter code.
    Code(String),
    /// To be written down; in brackets what its code would have, or nothing.
    ToWrite(String),
    /// It has none.
    #[default]
    None,
}

/// With which power a step is done.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CardPower {
    /// Without.
    Off,
    /// With.
    On,
}

/// A step.
#[derive(Debug, Clone, PartialEq)]
pub struct CardStep {
    /// Its letter and number.
    pub number: String,
    /// What is read or done.
    pub what: String,
    /// Whether it is so brief that several stand on a line.
    pub is_brief: bool,
    /// Expected, lowest, highest.
    pub values: [String; 3],
    /// Whether something is written.
    pub writes: bool,
    /// Whether it is ticked.
    pub ticks: bool,
    /// With which power.
    pub power: CardPower,
}
