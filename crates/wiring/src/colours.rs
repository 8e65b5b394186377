//! Colours of conductors, in the letter codes of IEC 60757.
//!
//! They are those that the catalogue gives for the cable, one by one (`colours`) or by the code that it follows (`colour_code`). Where it
//! gives neither a convention is used, and said to be one on every sheet that shows colours:
//!
//! * one pair in mains-insulated flexible cable: BN, BU (HD 308 S2, two-core flexible cable);
//! * four pairs of an AWG size: WHBU/BU, WHOG/OG, WHGN/GN, WHBN/BN (ANSI/TIA-568);
//! * every other cable: WH, BN, GN, YE, GY, PK, BU, RD, BK, VT, two by two (DIN 47100, from memory).
//!
//! Beyond what a code names the pairs are numbered instead.

use latchline_site::catalogue::{Cable, ColourCode, Gauge};

/// One conductor: its pair in the cable and its colour.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Conductor {
    /// Pair in the cable, from 1.
    pub pair: u32,
    /// Colour by IEC 60757; empty beyond the code.
    pub colour: &'static str,
}

/// A pair: for `+`, then for `-`.
type Pair = [&'static str; 2];

/// HD 308 S2, two-core flexible cable.
const TWO_CORE: &[Pair] = &[["BN", "BU"]];
/// ANSI/TIA-568.
const TIA_568: &[Pair] = &[["WHBU", "BU"], ["WHOG", "OG"], ["WHGN", "GN"], ["WHBN", "BN"]];
/// DIN 47100, withdrawn, from memory.
const DIN_47100: &[Pair] = &[["WH", "BN"], ["GN", "YE"], ["GY", "PK"], ["BU", "RD"], ["BK", "VT"]];
/// DIN VDE 0815 for up to two pairs, twisted as one quad; from memory.
const VDE_0815_QUAD: &[Pair] = &[["RD", "BK"], ["WH", "YE"]];
/// DIN VDE 0815 for pairs in layers, the first layer; from memory. Further layers begin again, and how many pairs each has is the maker's.
const VDE_0815: &[Pair] = &[["RD", "BU"], ["WH", "YE"], ["WH", "GN"], ["WH", "BN"], ["WH", "BK"]];
/// IEC 60708, from memory: five colours of the first conductors, each with the five of the second ones.
const IEC_60708: [&[&str; 5]; 2] = [&["WH", "RD", "BK", "YE", "VT"], &["BU", "OG", "GN", "BN", "GY"]];

/// The conductors of a pair (from 1) of a cable: for `+`, then for `-`.
pub fn conductors(cable: &Cable, pair: u32) -> [Conductor; 2] {
    let index = pair.saturating_sub(1) as usize;
    let named = &cable.colours.value;
    let colours = if named.is_empty() {
        of_code(code(cable), cable.pairs.value, index)
    } else {
        [2 * index, 2 * index + 1].map(|index| named.get(index).map_or("", |colour| colour.word()))
    };
    colours.map(|colour| Conductor { pair, colour })
}

/// Whether the catalogue says which colours a cable has.
pub fn is_stated(cable: &Cable) -> bool {
    !cable.colours.value.is_empty() || cable.colour_code.is_some()
}

/// The code of a cable: as the catalogue states it, else by convention.
pub fn code(cable: &Cable) -> ColourCode {
    let usual = if cable.pairs.value == 1 && cable.mains_insulated.value {
        ColourCode::Hd308
    } else if cable.pairs.value == 4 && matches!(cable.gauge.value, Gauge::Awg(_)) {
        ColourCode::Tia568
    } else {
        ColourCode::Din47100
    };
    cable.colour_code.as_ref().map_or(usual, |stated| stated.value)
}

/// The colours of a pair (from 0) of a cable with so many pairs.
fn of_code(code: ColourCode, pairs: u32, index: usize) -> Pair {
    let listed: &[Pair] = match code {
        ColourCode::Hd308 => TWO_CORE,
        ColourCode::Tia568 => TIA_568,
        ColourCode::Din47100 => DIN_47100,
        ColourCode::Vde0815 if pairs <= 2 => VDE_0815_QUAD,
        ColourCode::Vde0815 => VDE_0815,
        ColourCode::Iec60708 => {
            let [first, second] = IEC_60708;
            return first.get(index / 5).map_or(["", ""], |first| [*first, second[index % 5]]);
        }
        ColourCode::Numbered => &[],
    };
    listed.get(index).copied().unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [ColourCode; 6] = [
        ColourCode::Hd308,
        ColourCode::Tia568,
        ColourCode::Din47100,
        ColourCode::Vde0815,
        ColourCode::Iec60708,
        ColourCode::Numbered,
    ];

    /// IEC 60757:2021, table 1: the letter codes; a conductor of two colours has both in a row.
    #[test]
    fn codes_are_those_of_the_standard() {
        const CODES: [&str; 14] =
            ["BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR"];
        for (code, pairs) in ALL.into_iter().flat_map(|code| [(code, 2), (code, 25)]) {
            for colour in (0..30).flat_map(|index| of_code(code, pairs, index)).filter(|one| !one.is_empty())
            {
                let (first, rest) = colour.split_at(2);
                assert!(CODES.contains(&first) && (rest.is_empty() || CODES.contains(&rest)), "{colour}");
                assert_ne!(colour, "GNYE", "green-and-yellow is kept for protective earth");
            }
        }
    }

    /// No two pairs of a cable look alike, and the two conductors of a pair never do.
    #[test]
    fn every_pair_is_told_from_the_others() {
        for (code, pairs) in ALL.into_iter().flat_map(|code| [(code, 2), (code, 25)]) {
            let listed: Vec<Pair> =
                (0..30).map(|index| of_code(code, pairs, index)).filter(|pair| !pair[0].is_empty()).collect();
            for (index, pair) in listed.iter().enumerate() {
                assert_ne!(pair[0], pair[1], "{code:?}");
                assert!(!listed[..index].contains(pair), "{code:?} {pair:?}");
            }
        }
    }

    /// The 25 pairs of the code that telephone cables share (IEC 60708; from memory): pair 1 white and blue, pair 6 red and blue, pair 25
    /// violet and grey.
    #[test]
    fn telephone_cable_has_twenty_five_pairs() {
        let pair = |number: usize| of_code(ColourCode::Iec60708, 25, number - 1);
        assert_eq!([pair(1), pair(6), pair(25)], [["WH", "BU"], ["RD", "BU"], ["VT", "GY"]]);
        assert_eq!(pair(26), ["", ""]);
    }
}
