//! Cables.

use super::PartHead;
use latchline_finding::Sourced;
use latchline_finding::quantity::{
    Area, CapacitancePerLength, Decibels, Frequency, InductancePerLength, Length, Ratio, ResistancePerLength,
    Temperature,
};

/// What a conductor is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Material {
    /// Annealed copper.
    Copper,
    /// Copper-clad aluminium, 10 % copper by volume.
    CladAluminium10,
    /// Copper-clad aluminium, 15 % copper by volume.
    CladAluminium15,
    /// Aluminium.
    Aluminium,
}

/// How the size of a conductor is given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Gauge {
    /// A nominal cross-section of IEC 60228, with its class (1, 2 or 5).
    CrossSection {
        /// Nominal cross-section.
        area: Area,
        /// 1 solid, 2 stranded, 5 flexible.
        class: u8,
    },
    /// An American wire gauge.
    Awg(u8),
    /// The diameter of a solid wire in millimetres.
    DiameterMm(f64),
    /// A stated resistance per metre of one conductor at 20 °C.
    Resistance(ResistancePerLength),
}

/// Where a cable may run.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Environment {
    /// Indoors, dry.
    Indoors,
    /// Outdoors or damp.
    Outdoors,
    /// In the ground.
    Buried,
}

/// Line constants of one pair, per metre of pair.
#[derive(Debug, Clone, PartialEq)]
pub struct LineConstants {
    /// Capacitance between the conductors.
    pub capacitance: Sourced<CapacitancePerLength>,
    /// What tells the rest.
    pub rest: LineRest,
}

/// What is known of a pair besides its resistance and capacitance.
#[derive(Debug, Clone, PartialEq)]
pub enum LineRest {
    /// Its constants.
    Constants {
        /// Inductance of the loop.
        inductance: Sourced<InductancePerLength>,
        /// Frequency above which the resistance grows with the square root of the frequency.
        skin_corner: Sourced<Frequency>,
        /// Loss tangent of the insulation.
        loss_tangent: Sourced<Ratio>,
    },
    /// A data sheet's table of losses, to which constants are fitted.
    Losses {
        /// Inductance of the loop, if it is known.
        inductance: Option<Sourced<InductancePerLength>>,
        /// The rows of the table.
        rows: Vec<CableLoss>,
    },
}

/// Loss of a matched length at one frequency.
#[derive(Debug, Clone, PartialEq)]
pub struct CableLoss {
    /// The frequency.
    pub frequency: Sourced<Frequency>,
    /// Loss of 100 m.
    pub loss_per_100_m: Sourced<Decibels>,
}

/// A cable.
#[derive(Debug, Clone, PartialEq)]
pub struct Cable {
    /// Name, title, source, price per metre.
    pub head: PartHead,
    /// Size of one conductor.
    pub gauge: Sourced<Gauge>,
    /// What it is made of.
    pub material: Sourced<Material>,
    /// Whether the strands are coated with metal (tinned), for the IEC 60228 tables.
    pub coated: Sourced<bool>,
    /// How far the resistance may lie above or below the figure.
    pub resistance_tolerance: Sourced<Ratio>,
    /// Pairs in the cable.
    pub pairs: Sourced<u32>,
    /// Where it may run.
    pub environments: Sourced<Vec<Environment>>,
    /// Whether it has a screen.
    pub screened: Sourced<bool>,
    /// Whether it is insulated for mains voltage, so that it may share an enclosure with mains.
    pub mains_insulated: Sourced<bool>,
    /// Highest conductor temperature.
    pub conductor_temperature_limit: Option<Sourced<Temperature>>,
    /// Line constants for signals, if known.
    pub line: Option<LineConstants>,
    /// Lengths in which it is sold.
    pub drum_lengths: Vec<Sourced<Length>>,
}
