//! What is in danger while a finding stands.

use crate::rules::codes;
use latchline_finding::Code;
use latchline_site::codes as numbers;

/// What is in danger, worst first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Danger {
    /// Somebody may not get out, or may touch what is live.
    People,
    /// Something may burn, or a door may not open on fire.
    Fire,
    /// A supply with everything that hangs on it.
    Supply,
    /// Everything that hangs beyond a run that feeds several.
    Riser,
    /// One run.
    Run,
    /// One station, door or box.
    Station,
    /// A number or a name: nothing is dark, but the wrong one rings.
    Address,
    /// The site as a whole, or nothing in particular.
    Site,
}

impl Danger {
    /// Every one, worst first.
    pub const ALL: [Danger; 8] = [
        Danger::People,
        Danger::Fire,
        Danger::Supply,
        Danger::Riser,
        Danger::Run,
        Danger::Station,
        Danger::Address,
        Danger::Site,
    ];

    /// The stable word used in JSON.
    pub fn word(self) -> &'static str {
        match self {
            Danger::People => "people",
            Danger::Fire => "fire",
            Danger::Supply => "supply",
            Danger::Riser => "riser",
            Danger::Run => "run",
            Danger::Station => "station",
            Danger::Address => "address",
            Danger::Site => "site",
        }
    }
}

/// What a kind of finding endangers wherever it is found; `None` where that depends on the place.
pub(super) fn of_code(code: Code) -> Option<Danger> {
    match code {
        codes::ESCAPE_FAIL_SECURE
        | codes::ESCAPE_DEPENDS_ON_BUS
        | codes::EXIT_BUTTON_MISSING
        | codes::DELAYED_EGRESS_TOO_LONG
        | codes::BUS_VOLTAGE_ABOVE_SELV
        | codes::BUS_VOLTAGE_WET
        | codes::BESIDE_MAINS => Some(Danger::People),
        codes::FIRE_INTERLOCK_MISSING
        | codes::FIRE_RELEASE_THROUGH_STATION
        | codes::FIRE_INTERLOCK_WITHOUT_EFFECT
        | codes::SHORT_CIRCUIT_NOT_CLEARED
        | codes::SUPPLY_TOO_HOT => Some(Danger::Fire),
        // A part that its bus was not made for may take the others down with it.
        codes::MIXED_FAMILIES => Some(Danger::Supply),
        codes::DWELLING_WITHOUT_ENTRANCE
        | codes::DIRECTORY_TOO_SMALL
        | codes::CALL_BUTTONS_TOO_FEW
        | codes::ENTRANCE_CALLS_NOBODY
        | numbers::ADDRESS_OUT_OF_RANGE
        | numbers::ADDRESS_RESERVED
        | numbers::ADDRESS_DUPLICATE
        | numbers::ADDRESS_NOT_OF_NAME
        | numbers::ADDRESS_REPEATED
        | numbers::ADDRESS_NOT_EXPRESSIBLE
        | numbers::ADDRESSES_EXHAUSTED
        | numbers::TWO_MAIN_ENTRANCES => Some(Danger::Address),
        codes::ACCEPTANCE_WITHOUT_MATCH => Some(Danger::Site),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A mistake in a number endangers numbers, a new one too.
    #[test]
    fn every_code_of_an_address_is_of_addresses() {
        let named = numbers::CODES.iter().filter(|doc| doc.code.as_str().starts_with("address"));
        assert!(named.clone().count() > 5);
        for doc in named {
            assert_eq!(of_code(doc.code), Some(Danger::Address), "{}", doc.code);
        }
    }
}
