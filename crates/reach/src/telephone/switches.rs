//! The switches of a number.

use latchline_site::addresses::{SwitchSetting, settings};
use latchline_site::catalogue::{Family, FieldKind};

/// One field of an indoor station's address.
#[derive(Debug, Clone, PartialEq)]
pub struct SwitchRow {
    /// What it numbers.
    pub kind: FieldKind,
    /// Label beside the switches.
    pub label: String,
    /// Its range.
    pub range: (u32, u32),
    /// The number.
    pub number: u32,
    /// How it is set; `None` if the switches cannot show it.
    pub setting: Option<SwitchSetting>,
}

/// How an indoor station of a family is set; `asked` gives the number of each field, or `None` for the usual one: the main one, else the
/// lowest.
pub fn switches_for(family: &Family, asked: &dyn Fn(FieldKind) -> Option<u32>) -> Vec<SwitchRow> {
    let fields = &family.addresses.indoor;
    fields
        .iter()
        .map(|field| {
            let (low, high) = (field.first.value, field.last.value);
            let number = asked(field.kind).unwrap_or_else(|| field.main.unwrap_or(low));
            let is_in_range = (low..=high).contains(&number) && !field.reserved.contains(&number);
            SwitchRow {
                kind: field.kind,
                label: field.label.clone(),
                range: (low, high),
                number,
                setting: settings(field, number).filter(|_| is_in_range),
            }
        })
        .collect()
}
