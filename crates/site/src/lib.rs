//! Site file and catalogue: parse, resolve, edit, number.
//!
//! * [`resolve()`]: the texts of a site file and its catalogues to a [`model::Site`], with every
//!   mistake of all files as a finding;
//! * [`edit`]: changes to the text that keep comments, order and layout;
//! * [`addresses`]: numbers of devices, switch positions, and lists of found devices;
//! * [`schema`]: JSON Schemas for editors, made from the same [`keys`] that the reader uses;
//! * [`cables`]: every length of cable and what it belongs to;
//! * [`bill`]: what must be bought and pulled, and what it costs;
//! * [`changes`]: what is different between two versions of a site, as work on site;
//! * [`protectors`]: every surge protector and its earth;
//! * [`ways`]: on which runs power comes to a thing;
//! * [`codes`]: the manual pages of those findings.
//!
//! ```
//! use latchline_finding::Sources;
//! use latchline_site::{builtin_catalogue, resolve};
//!
//! let mut sources = Sources::new();
//! let (name, text) = builtin_catalogue();
//! let catalogue = sources.add(name, text);
//! let site = sources.add("site.toml", "[site]\ntitle = \"Empty\"\nfamily = \"ostrel-84\"\n");
//! let resolved = resolve(&sources, site, &[catalogue]);
//! assert!(resolved.site.is_none());
//! assert_eq!(resolved.findings[0].code.0, "unknown-name");
//! ```

pub mod addresses;
pub mod bill;
mod builtin;
pub mod cables;
pub mod catalogue;
pub mod changes;
pub mod codes;
pub mod edit;
pub mod floors;
pub mod keys;
pub mod model;
pub mod outdoors;
pub mod parse;
pub mod protectors;
pub mod ranges;
mod resolve;
pub mod schema;
#[cfg(test)]
mod tables;
pub mod ways;

pub use builtin::builtin_catalogue;
pub use resolve::look_alike::{LookAlike, look_alikes};
pub use resolve::{LoadedCatalogues, ParsedSite, Resolved, resolve};
