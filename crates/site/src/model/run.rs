//! Runs: cable paths as the installer thinks of them.

use crate::catalogue::Environment;
use crate::keys::bounds::*;
use crate::keys::{Bears, Gauge, Kind, choices, keys};
use latchline_finding::quantity::{Capacitance, Length, Resistance};
use latchline_finding::{ElementId, Origin, Provenance, Sourced};

/// From where a run starts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RunStart {
    /// A supply's output (all outputs of a supply are joined inside).
    Supply(usize),
    /// A port of a box; ports count from 1.
    Port {
        /// Index into [`Site::boxes`](super::Site::boxes).
        box_index: usize,
        /// Port number from 1.
        port: u32,
    },
    /// The terminals of a station, from which the run branches off or goes on.
    Station(usize),
}

impl RunStart {
    /// The stop at which the run ends on which this one hangs; `None` at a supply.
    pub fn reached_at(self) -> Option<RunStop> {
        match self {
            RunStart::Supply(_) => None,
            RunStart::Port { box_index, .. } => Some(RunStop::BoxInput(box_index)),
            RunStart::Station(station) => Some(RunStop::Station(station)),
        }
    }
}

/// What a section of a run leads to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RunStop {
    /// A station: index into [`Site::stations`](super::Site::stations).
    Station(usize),
    /// The input of a box: index into [`Site::boxes`](super::Site::boxes).
    BoxInput(usize),
    /// The signal link of an isolating box: index into [`Site::boxes`](super::Site::boxes).
    BoxLink(usize),
}

/// One length of cable between two terminals.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// What it leads to; it comes from the stop before, or from the start of the run.
    pub to: RunStop,
    /// Where that stop is named.
    pub to_origin: Origin,
    /// Its length along the route.
    pub length: Sourced<Length>,
}

choices! {
    /// At which ends of a run a surge protector is fitted.
    pub enum ProtectedEnds {
        /// Where it starts.
        Start = "start",
        /// Where it ends.
        End = "end",
        /// At both.
        Both = "both",
    }
}

keys! {
    /// A cable path: from here to these, in this order. Give "length" for one section, "lengths" for one each, or "first" and
    /// "spacing" ("spacing" alone: all sections are that long).
    pub struct Run = RUN Run;
    read(
        record, provenance, id: ElementId, origin: Origin, from: RunStart, from_origin: Origin, sections: Vec<Section>,
        cable: Sourced<String>
    );

    /// The user's name.
    field id: ElementId = id;
    /// Where it starts: a supply (each run there takes one of its outputs, see `outputs` in the catalogue), a port such as "D1.3", or a station from which it branches off.
    from: RunStart = must(TEXT), by from;
    /// Where the start is named.
    field from_origin: Origin = from_origin;
    /// The stations and boxes that it reaches, in order.
    key to = must(NAMES);
    /// Its sections in order; at least one.
    field sections: Vec<Section> = sections;
    /// Cable in the catalogue, if not the default.
    cable: Sourced<String> = may(TEXT), by cable;
    /// Length of the only section.
    key length = may(SECTION_LENGTH);
    /// Length of every section, in order.
    key lengths = may(Kind::List(&SECTION_LENGTH));
    /// Length of the first section.
    key first = may(SECTION_LENGTH);
    /// Length of every further section.
    key spacing = may(SECTION_LENGTH);
    /// Pairs in parallel. Without it 1.
    pairs: Sourced<u32> = or(Kind::Integer(1, 16), 1);
    /// Extra joints per conductor, beyond the terminals at each stop. Without it 0.
    joints: Sourced<u32> = or(SITE_COUNT, 0);
    /// Whether a terminator is set on its last station; leave it out if you do not know.
    terminator: Option<Sourced<bool>> = may(BOOLEAN);
    /// Whether that terminator has its series capacitor. Without it true.
    terminator_capacitor: Sourced<bool> = or(BOOLEAN, true);
    /// Where it runs. Without it indoors.
    environment: Sourced<Environment> = or(Kind::Words(Environment::WORDS), Environment::Indoors);
    /// Whether it shares a route with mains cables without separation. Without it false.
    beside_mains: Sourced<bool> = or(BOOLEAN, false);
    /// Whether the cable is already in the walls. Without it false.
    existing: Sourced<bool> = or(BOOLEAN, false);
    /// Loop resistance of each of its surge protectors, if it has any.
    surge_protection: Option<Sourced<Resistance>> = may(RESISTANCE_OR_NONE);
    /// At which of its ends a protector is fitted. Without it at both where it leads from one building to another, else where it
    /// starts. Where the entrance at its end has one of its own, that is the one there.
    surge_protection_at: Option<Sourced<ProtectedEnds>> = may(Kind::Words(ProtectedEnds::WORDS)).goes_with("surge_protection");
    /// Copper conductor that earths each of them, as "6 mm²" or "10 AWG". Without it the sheets say 4 mm², and that it is assumed there.
    surge_earth: Option<Sourced<Gauge>> = may(Kind::Gauge).bears(Bears::OnNothing).goes_with("surge_protection");
    /// What was measured of it with the electronics disconnected.
    measured: MeasuredRun = may(Kind::Table(&MEASURED)),
        by record.within("measured", |measured| MeasuredRun::read(measured, Provenance::Measured));
    /// Where it is defined.
    field origin: Origin = origin;
}

impl Run {
    /// The stated length of all its sections.
    pub fn length(&self) -> Length {
        self.sections.iter().map(|section| section.length.value).sum()
    }

    /// The stated length of each section, in metres.
    pub fn section_lengths_m(&self) -> Vec<f64> {
        self.sections.iter().map(|section| section.length.value.as_metres()).collect()
    }

    /// Loop resistance of the terminals of one section, in ohms: two conductors with a terminal at either end, shared by the pairs.
    /// `joint` is the resistance of one.
    pub fn terminals_ohm(&self, joint: Resistance) -> f64 {
        4.0 * joint.as_ohms() / self.pairs_in_parallel()
    }

    /// Whether its length is not stated but worked out from its own measured loop.
    pub fn has_length_of_its_loop(&self) -> bool {
        self.sections.iter().any(|section| section.length.provenance == Provenance::Measured)
    }

    /// Loop resistance of the joints between the terminals of all its sections, in ohms: one in each conductor, shared by the pairs.
    /// `joint` is the resistance of one.
    pub fn joints_ohm(&self, joint: Resistance) -> f64 {
        2.0 * f64::from(self.joints.value) * joint.as_ohms() / self.pairs_in_parallel()
    }

    /// Pairs in parallel, by which resistances are divided and capacitances multiplied: at least one.
    pub fn pairs_in_parallel(&self) -> f64 {
        f64::from(self.pairs.value.max(1))
    }
}

keys! {
    /// What was measured of a run with the electronics disconnected.
    #[derive(Default)]
    pub struct MeasuredRun = MEASURED Measurement;
    read(record, provenance);

    /// Loop resistance, both conductors, with the far end short-circuited.
    loop_resistance as "loop": Option<Sourced<Resistance>> = may(RESISTANCE);
    /// Capacitance between the conductors with the far end open.
    capacitance: Option<Sourced<Capacitance>> = may(CAPACITANCE);
    /// Insulation resistance between the conductors or to earth, the lower of the two.
    insulation: Option<Sourced<Resistance>> = may(INSULATION);
}
