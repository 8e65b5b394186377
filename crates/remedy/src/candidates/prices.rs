//! Parts in the order of their price.

use latchline_site::catalogue::PartHead;
use std::cmp::Ordering;

/// Cheapest first, those without price last, then by name.
pub(super) fn by_price(a: &PartHead, b: &PartHead) -> Ordering {
    let price = |head: &PartHead| head.price.as_ref().map_or(f64::INFINITY, |price| price.value);
    price(a).total_cmp(&price(b)).then_with(|| a.name.cmp(&b.name))
}
