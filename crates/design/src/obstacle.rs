//! Why no design can be made.

use std::fmt;

/// What stands in the way of every design of a family.
#[derive(Debug, Clone, PartialEq)]
pub enum Obstacle {
    /// The family has no such part.
    NoPart {
        /// Family.
        family: String,
        /// What is missing.
        kind: &'static str,
    },
    /// A part that the survey names is in no catalogue.
    UnknownPart {
        /// What it should be.
        kind: &'static str,
        /// Its name.
        name: String,
    },
    /// More than the family allows.
    Count {
        /// Of what.
        what: &'static str,
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
    /// Everything can be fed alone, but not together within these limits.
    Together {
        /// The limit whose loosening would help, in words, with the value that suffices.
        relaxation: Option<String>,
    },
    /// Plans were found, but none passes.
    Rejected {
        /// Plans that were assessed.
        tried: usize,
        /// What the nearest of them misses: codes of findings with their elements and figures.
        findings: Vec<String>,
    },
}

impl fmt::Display for Obstacle {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoPart { family, kind } => write!(f, "the family {family} has no {kind}"),
            Self::UnknownPart { kind, name } => write!(f, "no catalogue has a {kind} \"{name}\""),
            Self::Count { what, count, limit } => {
                write!(f, "{count} {what}; the family allows {limit}")
            }
            Self::OutOfReach { item, nearest, length_m } => write!(
                f,
                "{item} cannot be fed even alone on a run: the nearest place for a box, {nearest}, is {length_m:.1} m of cable away"
            ),
            Self::Together { relaxation: Some(relaxation) } => {
                write!(f, "no design within the declared space keeps every limit; {relaxation}")
            }
            Self::Together { relaxation: None } => f.write_str(
                "no design within the declared space keeps every limit, and loosening one of them alone does not help",
            ),
            Self::Rejected { tried: 0, findings } => f.write_str(&findings.join(", ")),
            Self::Rejected { tried, findings } => write!(
                f,
                "none of the {tried} plans that were checked passes; the nearest to it fails by {}",
                findings.join(", ")
            ),
        }
    }
}

impl std::error::Error for Obstacle {}
