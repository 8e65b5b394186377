//! Addresses (placeholder until the plan's type lands).
use latchline_site::addresses::AddressPlan;
use schemars::JsonSchema;
use serde::Serialize;

/// Addresses.
#[derive(Debug, Serialize, JsonSchema)]
pub struct AddressDocument {}

/// Document.
pub fn document(_plan: &AddressPlan) -> AddressDocument {
    AddressDocument {}
}
