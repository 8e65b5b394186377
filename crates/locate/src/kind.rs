//! What a cause is: kinds, and the elements that they concern.

use latchline_network::readings::ReadingPlace;
use latchline_site::model::{RunStart, RunStop, Site};
pub use latchline_words::locate::{Kind, SymptomKind};

/// What a cause concerns.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Element {
    /// One length of cable with the terminals at both its ends.
    Section {
        /// Index into [`Site::runs`].
        run: usize,
        /// Section of that run.
        section: usize,
    },
    /// A whole run.
    Run(usize),
    /// A station: index into [`Site::stations`].
    Station(usize),
    /// A box: index into [`Site::boxes`].
    Box(usize),
    /// A port of a box.
    Port {
        /// Index into [`Site::boxes`].
        box_index: usize,
        /// Port number from 1.
        port: u32,
    },
    /// A supply: index into [`Site::supplies`].
    Supply(usize),
    /// A door: index into [`Site::entrances`].
    Entrance(usize),
    /// The site as a whole.
    Site,
}

impl Element {
    /// Its name: `A-R1`, of a section `A-R1: A-12 to A-13`.
    pub fn name(self, site: &Site) -> String {
        match self {
            Element::Section { run, section } => {
                let (from, to) = section_ends(site, run, section);
                format!("{}: {from} – {to}", site.runs[run].id)
            }
            Element::Run(run) => site.runs[run].id.to_string(),
            Element::Station(station) => site.stations[station].id.to_string(),
            Element::Box(index) => site.boxes[index].id.to_string(),
            Element::Port { box_index, port } => {
                site.start_id(RunStart::Port { box_index, port }).to_string()
            }
            Element::Supply(supply) => site.supplies[supply].id.to_string(),
            Element::Entrance(entrance) => site.entrances[entrance].id.to_string(),
            Element::Site => String::new(),
        }
    }

    /// The run that it lies in, for causes of the wiring.
    pub fn run(self) -> Option<usize> {
        match self {
            Element::Section { run, .. } | Element::Run(run) => Some(run),
            _ => None,
        }
    }

    /// The station or other place at which somebody would look at it first.
    pub fn place(self, site: &Site) -> Option<ReadingPlace> {
        Some(match self {
            Element::Section { run, section } => site.runs[run].sections[section].to.into(),
            Element::Run(run) => ReadingPlace::Run(run),
            Element::Station(station) => ReadingPlace::Station(station),
            Element::Box(index) => ReadingPlace::BoxInput(index),
            Element::Port { box_index, port } => ReadingPlace::Port { box_index, port },
            Element::Supply(supply) => ReadingPlace::Supply(supply),
            Element::Entrance(entrance) => ReadingPlace::Station(site.entrances[entrance].station),
            Element::Site => return None,
        })
    }
}

/// Names of the two ends of a section.
pub fn section_ends(site: &Site, run: usize, section: usize) -> (String, String) {
    let wired = &site.runs[run];
    let from = match section.checked_sub(1) {
        None => site.start_id(wired.from).to_string(),
        Some(before) => site.stop_id(wired.sections[before].to).to_string(),
    };
    let mut to = site.stop_id(wired.sections[section].to).to_string();
    if matches!(wired.sections[section].to, RunStop::BoxLink(_)) {
        to.push_str(".link");
    }
    (from, to)
}

/// One cause: a kind at an element.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Cause {
    /// What.
    pub kind: Kind,
    /// Where.
    pub element: Element,
}
