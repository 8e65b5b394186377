//! Parts in the order of their price.

use latchline_site::catalogue::PartHead;
use std::cmp::Ordering;

/// Cheapest first, those without price last, then by name.
pub(super) fn by_price(a: &PartHead, b: &PartHead) -> Ordering {
    let price = |head: &PartHead| head.price.as_ref().map(|price| price.value);
    let dearer = price(a).is_none().cmp(&price(b).is_none()).then_with(|| price(a).cmp(&price(b)));
    dearer.then_with(|| a.name.cmp(&b.name))
}
