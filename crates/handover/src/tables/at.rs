//! At what a step is done, by kind and index: names do not tell a run from a door of the same name.

use crate::job_cards::places::stop_item;
use crate::step::Spot;
use crate::subject::Subject;
use latchline_finding::Language;
use latchline_site::cables::CableOwner;
use latchline_site::model::RunStop;
use latchline_wiring::runs::cable_name;
use latchline_wiring::terminal::place_name;
use latchline_wiring::{Item, Place};

/// At what a step is done.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum At {
    /// The whole site.
    Site,
    /// An item.
    Item(Item),
    /// A run, at its start: index into `Site::runs`.
    Run(usize),
    /// A run, at the terminals where it starts.
    RunFrom(usize, Place),
    /// A cable: index into `Wiring::cables`.
    Cable(usize),
    /// A cable that the plan does not state: index into `Wiring::unstated`.
    Unstated(usize),
}

impl From<Item> for At {
    fn from(item: Item) -> At {
        At::Item(item)
    }
}

impl From<RunStop> for At {
    fn from(stop: RunStop) -> At {
        At::Item(stop_item(stop))
    }
}

impl At {
    /// As it is printed.
    pub(super) fn name(self, subject: &Subject<'_>, language: Language) -> String {
        let site = subject.site;
        match self {
            At::Site => String::new(),
            At::Item(item) => item.name(site, language),
            At::Run(run) => site.runs[run].id.to_string(),
            At::RunFrom(_, place) => place_name(site, place, language),
            At::Cable(cable) => cable_name(site, subject.wiring.cables[cable].laid.owner, language),
            At::Unstated(cable) => subject.wiring.unstated[cable].to.0.name(site, language),
        }
    }

    /// Where one stands. A cable at a door is dealt with at the part to which it leads, a run of one length where it starts, and a length of
    /// several at the device where that length starts.
    pub(super) fn spot(self, subject: &Subject<'_>) -> Option<Spot> {
        let site = subject.site;
        match self {
            At::Site => None,
            At::Item(item) => Some(Spot::Item(item)),
            At::Run(run) | At::RunFrom(run, _) => Some(Spot::Run(run)),
            At::Cable(cable) => {
                let cable = &subject.wiring.cables[cable];
                Some(match cable.laid.owner {
                    CableOwner::Section { run, .. } if site.runs[run].sections.len() == 1 => Spot::Run(run),
                    CableOwner::Section { .. } => Spot::Item(cable.from.0),
                    CableOwner::AtDoor(_) => Spot::Item(cable.to.0),
                })
            }
            At::Unstated(cable) => Some(Spot::Item(subject.wiring.unstated[cable].to.0)),
        }
    }
}
