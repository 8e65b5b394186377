//! Numbers as switch positions.

use crate::catalogue::{AddressField, Setter, SwitchOrder};
use std::fmt;

/// The positions of the switches of one address field.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SwitchSetting {
    /// Rotary switches, most significant first.
    Rotary {
        /// Positions of each switch (10 or 16).
        positions: u32,
        /// Where each points.
        at: Vec<u32>,
    },
    /// On/off switches in the order they are printed.
    Dip {
        /// Number printed on the first of them.
        first_switch: u32,
        /// Which are ON.
        on: Vec<bool>,
    },
    /// Jumpers in the order they are printed.
    Jumpers {
        /// Which are fitted.
        fitted: Vec<bool>,
    },
    /// Digits to key in.
    Keyed {
        /// The digits, leading zeros included.
        digits: String,
    },
}

impl fmt::Display for SwitchSetting {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let words: Vec<String> = match self {
            SwitchSetting::Rotary { at, .. } => at.iter().map(|position| format!("{position:X}")).collect(),
            SwitchSetting::Dip { first_switch, on } => (*first_switch..)
                .zip(on)
                .map(|(number, on)| format!("{number} {}", if *on { "ON" } else { "OFF" }))
                .collect(),
            SwitchSetting::Jumpers { fitted } => (1..)
                .zip(fitted)
                .map(|(number, fitted)| format!("{number} {}", if *fitted { "fitted" } else { "open" }))
                .collect(),
            SwitchSetting::Keyed { digits } => vec![digits.clone()],
        };
        let separator = if matches!(self, SwitchSetting::Rotary { .. }) { " " } else { ", " };
        f.pad(&words.join(separator))
    }
}

/// Offset of a setter and how many different numbers its switches can show.
fn offset_and_count(setter: &Setter) -> (u32, u64) {
    match *setter {
        Setter::Rotary { switches, positions, offset } => {
            (offset, u64::from(positions).saturating_pow(switches))
        }
        Setter::Dip { switches, offset, .. } => (offset, 2_u64.saturating_pow(switches)),
        Setter::Jumpers { jumpers, offset } => (offset, 2_u64.saturating_pow(jumpers)),
        Setter::Keyed { digits } => (0, 10_u64.saturating_pow(digits)),
    }
}

/// The highest number that the switches of a field can show, whatever the field's range.
pub fn highest_number(field: &AddressField) -> u32 {
    let (offset, count) = offset_and_count(&field.setter);
    u32::try_from(u64::from(offset) + count - 1).unwrap_or(u32::MAX)
}

/// The digits of `value` in `base`, most significant first.
fn digits(mut value: u32, base: u32, count: u32) -> Vec<u32> {
    let mut digits = vec![0; count as usize];
    for digit in digits.iter_mut().rev() {
        *digit = value % base;
        value /= base;
    }
    digits
}

/// The bits of `value`, least significant first.
fn bits(value: u32, count: u32) -> Vec<bool> {
    (0..count).map(|bit| value.checked_shr(bit).unwrap_or(0) & 1 == 1).collect()
}

fn from_bits(bits: impl Iterator<Item = bool>) -> u32 {
    bits.take(32).enumerate().fold(0, |value, (bit, one)| value | (u32::from(one) << bit))
}

/// The switch positions that show `number`; `None` if the switches cannot.
pub fn settings(field: &AddressField, number: u32) -> Option<SwitchSetting> {
    let (offset, count) = offset_and_count(&field.setter);
    let shown = number.checked_sub(offset).filter(|shown| u64::from(*shown) < count)?;
    Some(match field.setter {
        Setter::Rotary { switches, positions, .. } => {
            SwitchSetting::Rotary { positions, at: digits(shown, positions, switches) }
        }
        Setter::Dip { switches, order, on_is_one, first_switch, .. } => {
            let mut on: Vec<bool> = bits(shown, switches).into_iter().map(|one| one == on_is_one).collect();
            if order == SwitchOrder::MostFirst {
                on.reverse();
            }
            SwitchSetting::Dip { first_switch, on }
        }
        Setter::Jumpers { jumpers, .. } => SwitchSetting::Jumpers { fitted: bits(shown, jumpers) },
        Setter::Keyed { digits } => {
            SwitchSetting::Keyed { digits: format!("{shown:0width$}", width = digits as usize) }
        }
    })
}

/// The number that switch positions show; `None` if the setting is not one of this field's.
pub fn number_of(field: &AddressField, setting: &SwitchSetting) -> Option<u32> {
    let shown = match (&field.setter, setting) {
        (Setter::Rotary { switches, positions, .. }, SwitchSetting::Rotary { at, .. })
            if at.len() == *switches as usize && at.iter().all(|position| position < positions) =>
        {
            at.iter()
                .try_fold(0_u32, |value, position| value.checked_mul(*positions)?.checked_add(*position))?
        }
        (Setter::Dip { switches, order, on_is_one, .. }, SwitchSetting::Dip { on, .. })
            if on.len() == *switches as usize =>
        {
            let ones = on.iter().map(|on| on == on_is_one);
            match order {
                SwitchOrder::LeastFirst => from_bits(ones),
                SwitchOrder::MostFirst => from_bits(ones.rev()),
            }
        }
        (Setter::Jumpers { jumpers, .. }, SwitchSetting::Jumpers { fitted })
            if fitted.len() == *jumpers as usize =>
        {
            from_bits(fitted.iter().copied())
        }
        (Setter::Keyed { digits }, SwitchSetting::Keyed { digits: keyed })
            if keyed.len() == *digits as usize =>
        {
            keyed.parse().ok()?
        }
        _ => return None,
    };
    shown.checked_add(offset_and_count(&field.setter).0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalogue::FieldKind;
    use latchline_finding::Sourced;
    use proptest::prelude::*;

    fn field(setter: Setter) -> AddressField {
        AddressField {
            kind: FieldKind::Dwelling,
            first: Sourced::assumed(0),
            last: Sourced::assumed(9999),
            reserved: Vec::new(),
            main: None,
            setter,
            label: String::new(),
        }
    }

    /// Positional notation, worked by hand: 42 = 4 x 10 + 2; 0x2A = 42; 42 - 1 = 41 = 101001 in
    /// binary.
    #[test]
    fn worked_settings() {
        let shown = |setter, number| settings(&field(setter), number).map(|setting| setting.to_string());
        let rotary = |switches, positions| Setter::Rotary { switches, positions, offset: 0 };
        assert_eq!(shown(rotary(2, 10), 42).as_deref(), Some("4 2"));
        assert_eq!(shown(rotary(2, 16), 42).as_deref(), Some("2 A"));
        assert_eq!(shown(rotary(2, 10), 99).as_deref(), Some("9 9"));
        assert_eq!(shown(rotary(2, 10), 100), None);
        let dip =
            |order, on_is_one| Setter::Dip { switches: 6, order, on_is_one, first_switch: 1, offset: 1 };
        assert_eq!(
            shown(dip(SwitchOrder::LeastFirst, true), 42).as_deref(),
            Some("1 ON, 2 OFF, 3 OFF, 4 ON, 5 OFF, 6 ON")
        );
        assert_eq!(
            shown(dip(SwitchOrder::MostFirst, false), 42).as_deref(),
            Some("1 OFF, 2 ON, 3 OFF, 4 ON, 5 ON, 6 OFF")
        );
        assert_eq!(shown(dip(SwitchOrder::LeastFirst, true), 0), None, "below the offset");
        assert_eq!(shown(Setter::Keyed { digits: 3 }, 7).as_deref(), Some("007"));
        assert_eq!(shown(Setter::Jumpers { jumpers: 2, offset: 0 }, 2).as_deref(), Some("1 open, 2 fitted"));
    }

    fn setters() -> impl Strategy<Value = Setter> {
        prop_oneof![
            (1..4_u32, prop_oneof![Just(10_u32), Just(16)], 0..3_u32)
                .prop_map(|(switches, positions, offset)| Setter::Rotary { switches, positions, offset }),
            (1..9_u32, any::<bool>(), any::<bool>(), 0..3_u32).prop_map(
                |(switches, least, on_is_one, offset)| {
                    let order = if least { SwitchOrder::LeastFirst } else { SwitchOrder::MostFirst };
                    Setter::Dip { switches, order, on_is_one, first_switch: 3, offset }
                }
            ),
            (1..5_u32, 0..3_u32).prop_map(|(jumpers, offset)| Setter::Jumpers { jumpers, offset }),
            (1..4_u32).prop_map(|digits| Setter::Keyed { digits }),
        ]
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]
        #[test]
        fn every_number_comes_back_and_no_two_settings_are_alike(setter in setters()) {
            let field = field(setter);
            let (offset, count) = offset_and_count(&field.setter);
            let mut seen = std::collections::BTreeSet::new();
            for number in offset..=highest_number(&field) {
                let setting = settings(&field, number).expect("within the capacity");
                prop_assert_eq!(number_of(&field, &setting), Some(number));
                seen.insert(setting.to_string());
            }
            prop_assert_eq!(seen.len() as u64, count);
            prop_assert_eq!(settings(&field, highest_number(&field) + 1), None);
        }
    }
}
