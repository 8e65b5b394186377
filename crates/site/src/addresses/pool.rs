//! Handing out the numbers of one field.

use crate::catalogue::AddressField;
use latchline_finding::{ElementId, Origin};
use std::collections::BTreeMap;

/// Who has a number.
#[derive(Debug, Clone)]
pub(super) struct Holder {
    pub(super) id: ElementId,
    pub(super) origin: Origin,
}

/// The numbers of one field that are taken.
#[derive(Debug)]
pub(super) struct Pool<'f> {
    field: &'f AddressField,
    taken: BTreeMap<u32, Holder>,
    /// Everything below is taken, reserved or kept for the main one.
    lowest_candidate: u32,
}

impl<'f> Pool<'f> {
    pub(super) fn new(field: &'f AddressField) -> Self {
        Self { field, taken: BTreeMap::new(), lowest_candidate: field.first.value }
    }

    pub(super) fn holder(&self, number: u32) -> Option<&Holder> {
        self.taken.get(&number)
    }

    /// Whether the number lies in the field's range, is not reserved and can be shown.
    pub(super) fn is_usable(&self, number: u32) -> bool {
        (self.field.first.value..=self.field.last.value).contains(&number)
            && !self.field.reserved.contains(&number)
            && super::settings(self.field, number).is_some()
    }

    pub(super) fn take(&mut self, number: u32, holder: Holder) {
        self.taken.entry(number).or_insert(holder);
    }

    /// Whether no number is left for whoever takes the lowest.
    pub(super) fn is_exhausted(&self) -> bool {
        let is_free = |number: u32| {
            self.is_usable(number) && self.field.main != Some(number) && !self.taken.contains_key(&number)
        };
        !(self.lowest_candidate..=self.field.last.value).any(is_free)
    }

    /// Takes the number if it is usable, free and not kept for the main one.
    pub(super) fn take_if_free(&mut self, number: u32, holder: Holder) -> Option<u32> {
        let free =
            self.is_usable(number) && self.field.main != Some(number) && !self.taken.contains_key(&number);
        free.then(|| {
            self.take(number, holder);
            number
        })
    }

    /// Takes the lowest number that is usable, free and not kept for the main one.
    pub(super) fn take_lowest(&mut self, holder: Holder) -> Option<u32> {
        while self.lowest_candidate <= self.field.last.value {
            let candidate = self.lowest_candidate;
            self.lowest_candidate += 1;
            if let Some(number) = self.take_if_free(candidate, holder.clone()) {
                return Some(number);
            }
        }
        None
    }
}

/// The number in a name: its last group of digits ("A-12" gives 12, "12A" gives 12).
pub fn number_in_name(name: &str) -> Option<u32> {
    let end = name.rfind(|character: char| character.is_ascii_digit())? + 1;
    let start = name[..end]
        .rfind(|character: char| !character.is_ascii_digit())
        .map_or(0, |at| at + name[at..].chars().next().map_or(1, char::len_utf8));
    name[start..end].parse().ok()
}

#[cfg(test)]
mod tests {
    use super::number_in_name;

    #[test]
    fn numbers_in_names() {
        for (name, number) in [
            ("A-12", Some(12)),
            ("12A", Some(12)),
            ("Block 2, flat 7", Some(7)),
            ("wöhnung7ä", Some(7)),
            ("ä7", Some(7)),
            ("007", Some(7)),
            ("Penthouse", None),
            ("", None),
            ("99999999999", None),
        ] {
            assert_eq!(number_in_name(name), number, "{name}");
        }
    }
}
