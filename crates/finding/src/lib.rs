//! Quantities, element names, origins and findings: the words every other crate shares.
