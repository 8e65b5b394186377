//! Every terminal of a site and every conductor that lands on it: runs with their protectors and screens, and at each door the
//! lock's whole circuit, modules, lights and alarm inputs.
//!
//! Schedules, labels and drawings are made from this one model, so what a schedule joins is what a drawing joins.
//!
//! * [`item`]: what has terminals, its designation and place;
//! * [`terminal`]: the terminals of each item;
//! * [`lock`]: what lies in series from a lock's feed to the lock, and what lies across it;
//! * [`door`]: the same as joined terminals, with the cables that lead to each part;
//! * [`runs`]: the cables of the bus;
//! * [`colours`]: conductors of a cable.

mod all_terminals;
pub mod colours;
pub mod door;
mod door_landing;
mod earth_bar;
pub mod item;
mod landing;
pub mod lock;
pub mod runs;
pub mod terminal;

pub use earth_bar::hangs_at;
pub use item::{Item, StandsAt};
pub use landing::{By, EarthBar, Landing, ScreenEnd, UnstatedCable, WiredCable, Wiring};
use latchline_finding::Language;
use latchline_site::model::Site;
pub use terminal::{Place, Pole, Terminal, TerminalSet};

impl Wiring {
    /// Of a site, with designations in a language.
    pub fn new(site: &Site, language: Language) -> Wiring {
        let mut wiring = Wiring { language, cables: runs::cables(site, language), ..Wiring::default() };
        for terminal in all_terminals::all(site) {
            wiring.terminals.insert(terminal, Vec::new());
        }
        runs::land(site, &mut wiring);
        for entrance in 0..site.entrances.len() {
            door_landing::land(site, entrance, &mut wiring);
        }
        door_landing::settle_ends(&mut wiring);
        runs::land_batteries(site, &mut wiring);
        runs::land_earths(&mut wiring);
        wiring.earth_bars = earth_bar::bars(site, &wiring);
        // Conductors stand before short wires and leads.
        for landings in wiring.terminals.values_mut() {
            landings.sort_by_key(|landing| match landing.by {
                By::Conductor { .. } | By::Unstated { .. } => 0,
                By::Screen { .. } => 1,
                By::Link => 2,
                By::OwnLead => 3,
                By::EarthConductor => 4,
            });
        }
        wiring
    }
}
