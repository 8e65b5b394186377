//! The table of faults on the page: packed, with the words of its causes and the readings that steps take of it.

use crate::html::base64;
use crate::plan::{PlanFault, PlanFaults};
use flate2::Compression;
use flate2::write::ZlibEncoder;
use latchline_assess::Reading;
use latchline_finding::{Language, Unit};
use latchline_handover::Subject;
use latchline_handover::commissioning::Taken;
use latchline_locate::{Dictionary, Kind, place_name};
use latchline_site::model::Site;
use std::io::Write;

/// Most bytes of the packed table: with base64 it is a third more, and a page of 300 stations stays below 1 MB.
const MOST_PACKED: usize = 120_000;
/// Of what fits by proportion, the part that is tried.
const MARGIN: f64 = 0.97;

/// The table of faults of a page.
pub(crate) struct Faults<'s> {
    site: &'s Site,
    table: Option<(Dictionary, Vec<u8>)>,
}

impl<'s> Faults<'s> {
    /// Of what a pack is made from.
    pub fn of(subject: &Subject<'s>) -> Self {
        let table = subject.faults.and_then(|faults| fitting(faults.dictionary.clone()));
        Faults { site: subject.site, table }
    }

    /// The number of the reading that a step takes.
    pub fn reading(&self, taken: &Taken) -> Option<usize> {
        let (table, _) = self.table.as_ref()?;
        let name = match taken {
            Taken::Predicted(Reading::Voltage { at, .. }) if *taken == Taken::standby_voltage(*at) => {
                place_name(self.site, *at)
            }
            Taken::Predicted(Reading::Current { at, .. }) if *taken == Taken::standby_current(*at) => {
                format!("current:{}", place_name(self.site, *at))
            }
            Taken::Predicted(Reading::LoopResistance { run }) => {
                format!("loop:{}", self.site.runs[*run].id)
            }
            // The step for insulation asks for the lowest, to earth as well: the table has that between the legs.
            Taken::Predicted(_) | Taken::Insulation { .. } => return None,
        };
        table.number_of(&name)
    }

    /// What its causes are called.
    pub fn words(&self, language: Language) -> Option<PlanFaults> {
        let (table, _) = self.table.as_ref()?;
        let word = |kind: Kind| {
            let unit = match (kind, kind.size_unit()) {
                (Kind::Short, _) => "along",
                (_, Unit::Percent) => "plan",
                (_, unit) => unit.symbol(),
            };
            (kind.name(), PlanFault { words: kind.say(language), unit })
        };
        Some(PlanFaults { kinds: table.kinds().into_iter().map(word).collect() })
    }

    /// The table, packed and in base64; empty without one.
    pub fn packed(&self) -> String {
        self.table.as_ref().map_or(String::new(), |(_, packed)| base64(packed))
    }
}

/// The table with its bytes, the least probable causes left out until it is small enough; `None` if it cannot be packed.
fn fitting(mut table: Dictionary) -> Option<(Dictionary, Vec<u8>)> {
    loop {
        let bytes = table.to_bytes();
        let packed = packed(&bytes)?;
        if packed.len() <= MOST_PACKED || table.causes() == 0 {
            return Some((table, packed));
        }
        let share = MOST_PACKED as f64 / packed.len() as f64;
        table = table.within((MARGIN * share * bytes.len() as f64) as usize);
    }
}

/// As a zlib stream (RFC 1950).
fn packed(bytes: &[u8]) -> Option<Vec<u8>> {
    let mut encoder = ZlibEncoder::new(Vec::new(), Compression::best());
    encoder.write_all(bytes).ok()?;
    encoder.finish().ok()
}
