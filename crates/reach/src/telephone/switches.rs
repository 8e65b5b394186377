//! The switches of a number.

use latchline_site::addresses::{SwitchSetting, settings};
use latchline_site::catalogue::{AddressField, Family, FieldKind};

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
    /// Whether nobody said it: the usual one was taken.
    pub is_assumed: bool,
    /// Whether the family keeps the number for something else.
    pub is_reserved: bool,
    /// How it is set; `None` if the switches cannot show it, or may not.
    pub setting: Option<SwitchSetting>,
}

/// How an indoor station of a family is set; `asked` gives the number of each field, or `None` for the usual one: the main one, else the
/// lowest.
pub fn switches_for(family: &Family, asked: &dyn Fn(&AddressField) -> Option<u32>) -> Vec<SwitchRow> {
    let fields = &family.addresses.indoor;
    fields
        .iter()
        .map(|field| {
            let (low, high) = (field.first.value, field.last.value);
            let stated = asked(field);
            let number = stated.unwrap_or_else(|| field.main.unwrap_or(low));
            let is_reserved = field.reserved.contains(&number);
            let is_in_range = (low..=high).contains(&number) && !is_reserved;
            SwitchRow {
                kind: field.kind,
                label: field.label.clone(),
                range: (low, high),
                number,
                is_assumed: stated.is_none(),
                is_reserved,
                setting: settings(field, number).filter(|_| is_in_range),
            }
        })
        .collect()
}

/// Number of the so-manieth station of a dwelling, the main one being the first: the family's number of the main one, then the others
/// upwards, as the plan of a site gives them. One too high for the switches where there is none.
pub fn number_of_station(field: &AddressField, station: u32) -> u32 {
    let usable = |number: &u32| !field.reserved.contains(number);
    let main = field.main.filter(usable);
    let others = (field.first.value..=field.last.value).filter(|number| Some(*number) != main).filter(usable);
    let at = station.saturating_sub(1) as usize;
    main.into_iter().chain(others).nth(at).unwrap_or_else(|| field.last.value.saturating_add(1))
}
