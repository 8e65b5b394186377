//! Why no design can be made.

use latchline_finding::{Both, Language};
use latchline_words::design::{CountedPart, LackingPart, ObstacleWords, UnknownPart};
use latchline_words::figures;
use std::fmt;

/// What stands in the way of every design of a family.
#[derive(Debug, Clone, PartialEq)]
pub enum Obstacle {
    /// The family has no such part.
    NoPart {
        /// Family.
        family: String,
        /// What is missing.
        part: LackingPart,
    },
    /// A part that the survey names is in no catalogue.
    UnknownPart {
        /// What it should be.
        part: UnknownPart,
        /// Its name.
        name: String,
    },
    /// A station that the survey names is of another family.
    OtherFamily {
        /// The family.
        family: String,
        /// The station.
        station: String,
        /// The family of the station.
        of: String,
    },
    /// More than the family allows.
    Count {
        /// Of what.
        part: CountedPart,
        /// How many there are.
        count: usize,
        /// How many may be.
        limit: usize,
    },
    /// A dwelling, door or desk that no run of any kind can feed, even alone.
    OutOfReach {
        /// Its name.
        item: String,
        /// Its nearest place with a box.
        nearest: String,
        /// Length of the run from there in metres.
        length_m: f64,
    },
    /// A dwelling, door or desk that alone takes more current than any port of the family gives.
    PortCurrent {
        /// Its name.
        item: String,
        /// The largest limit of a port, in amperes.
        largest_a: f64,
    },
    /// Everything can be fed alone, but not together within these limits.
    Together {
        /// The limit whose loosening would help, in words, with the value that suffices.
        relaxation: Option<Both>,
    },
    /// What no plan changes stands in the way, so that none was looked for: in sentences.
    Unmendable {
        /// What, and what to do about it.
        findings: Vec<Both>,
    },
    /// Plans were found, but none passes.
    Rejected {
        /// Plans that were assessed.
        tried: usize,
        /// What the nearest of them misses: codes of findings with their elements and figures.
        findings: Vec<Both>,
    },
}

impl Obstacle {
    /// What it says.
    pub fn say(&self, language: Language) -> String {
        match self {
            Self::NoPart { family, part } => ObstacleWords::NoPart { family, part }.say(language),
            Self::UnknownPart { part, name } => ObstacleWords::UnknownPart { part, name }.say(language),
            Self::OtherFamily { family, station, of } => {
                ObstacleWords::OtherFamily { family, station, of }.say(language)
            }
            Self::Count { part, count, limit } => {
                ObstacleWords::Count { part, count: *count, limit: *limit }.say(language)
            }
            Self::OutOfReach { item, nearest, length_m } => {
                let length = &figures::decimals(figures::fixed(*length_m, 1), language);
                ObstacleWords::OutOfReach { item, place: nearest, length }.say(language)
            }
            Self::PortCurrent { item, largest_a } => {
                let limit = &figures::decimals(figures::trimmed(*largest_a, 2), language);
                ObstacleWords::PortCurrent { item, limit }.say(language)
            }
            Self::Together { relaxation: Some(relaxation) } => {
                ObstacleWords::TogetherBut { relaxation }.say(language)
            }
            Self::Together { relaxation: None } => ObstacleWords::Together.say(language),
            Self::Unmendable { findings } => {
                let findings: Vec<&str> = findings.iter().map(|finding| finding.of(language)).collect();
                ObstacleWords::Unmendable { findings: &findings.join("; ") }.say(language)
            }
            Self::Rejected { tried, findings } => {
                let findings: Vec<&str> = findings.iter().map(|finding| finding.of(language)).collect();
                let findings = &findings.join(", ");
                match *tried {
                    0 => ObstacleWords::RejectedUntried { findings }.say(language),
                    plans => ObstacleWords::Rejected { plans, findings }.say(language),
                }
            }
        }
    }
}

impl fmt::Display for Obstacle {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.say(Language::English))
    }
}

impl std::error::Error for Obstacle {}
