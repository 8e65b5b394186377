//! Colours of conductors, in the letter codes of IEC 60757.
//!
//! They are those that the catalogue gives for the cable (`colours`). Where it gives none a convention is used, and said to
//! be one on every sheet that shows colours:
//!
//! * one pair in mains-insulated flexible cable: BN, BU (HD 308 S2, two-core flexible cable);
//! * four pairs of an AWG size: WHBU/BU, WHOG/OG, WHGN/GN, WHBN/BN (ANSI/TIA-568);
//! * every other cable: WH, BN, GN, YE, GY, PK, BU, RD, BK, VT, two by two (DIN 47100, from memory).
//!
//! Beyond ten conductors, or those that the catalogue names, the pairs are numbered instead.

use latchline_site::catalogue::{Cable, Gauge};

/// One conductor: its pair in the cable and its colour.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Conductor {
    /// Pair in the cable, from 1.
    pub pair: u32,
    /// Colour by IEC 60757; empty beyond the convention.
    pub colour: &'static str,
}

const TWO_CORE: &[[&str; 2]] = &[["BN", "BU"]];
const TIA_568: &[[&str; 2]] = &[["WHBU", "BU"], ["WHOG", "OG"], ["WHGN", "GN"], ["WHBN", "BN"]];
const DIN_47100: &[[&str; 2]] = &[["WH", "BN"], ["GN", "YE"], ["GY", "PK"], ["BU", "RD"], ["BK", "VT"]];

/// The conductors of a pair (from 1) of a cable: for `+`, then for `-`.
pub fn conductors(cable: &Cable, pair: u32) -> [Conductor; 2] {
    let first = 2 * pair.saturating_sub(1) as usize;
    let named = &cable.colours.value;
    if !named.is_empty() {
        let of = |index: usize| named.get(index).map_or("", |colour| colour.word());
        return [first, first + 1].map(|index| Conductor { pair, colour: of(index) });
    }
    let colours = if cable.pairs.value == 1 && cable.mains_insulated.value {
        TWO_CORE
    } else if cable.pairs.value == 4 && matches!(cable.gauge.value, Gauge::Awg(_)) {
        TIA_568
    } else {
        DIN_47100
    };
    let of_pair = colours.get(pair.saturating_sub(1) as usize).copied().unwrap_or_default();
    of_pair.map(|colour| Conductor { pair, colour })
}

/// Every code that is used here.
pub fn all_codes() -> impl Iterator<Item = &'static str> {
    [TWO_CORE, TIA_568, DIN_47100].into_iter().flatten().flatten().copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// IEC 60757:2021, table 1: the letter codes; a conductor of two colours has both in a row.
    #[test]
    fn codes_are_those_of_the_standard() {
        const CODES: [&str; 14] =
            ["BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR"];
        for code in all_codes() {
            let (first, rest) = code.split_at(2);
            assert!(CODES.contains(&first) && (rest.is_empty() || CODES.contains(&rest)), "{code}");
            assert_ne!(code, "GNYE", "green-and-yellow is kept for protective earth");
        }
    }
}
