//! The rules: one rule, one file. Its doc comment is its manual page.

pub mod acceptance_without_match;
pub mod no_operating_point;
pub mod port_overloaded;
pub mod supply_count_exceeded;
pub mod supply_overloaded;
pub mod thin_margin;
pub mod voltage_too_high;
pub mod voltage_too_low;

pub use port_overloaded::port_limit;
pub use supply_count_exceeded::supply_counts;

use crate::rule::Rule;

/// Every rule, in the order in which findings of one severity are listed.
pub const ALL: &[&Rule] = &[
    &no_operating_point::NO_OPERATING_POINT,
    &voltage_too_low::VOLTAGE_TOO_LOW,
    &voltage_too_high::VOLTAGE_TOO_HIGH,
    &supply_overloaded::SUPPLY_OVERLOADED,
    &port_overloaded::PORT_OVERLOADED,
    &supply_count_exceeded::SUPPLY_COUNT_EXCEEDED,
    &thin_margin::THIN_MARGIN,
    &acceptance_without_match::ACCEPTANCE_WITHOUT_MATCH,
];
