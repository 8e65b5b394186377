//! A site that is being worked on: text and edits in, stages of an assessment out.
//!
//! * [`Session`]: the text of a site file with its catalogues, as it is now, and how it came about; every change is an
//!   [`Edit`](latchline_finding::Edit), and taking one back is another;
//! * [`View`]: one [`Revision`] of it, of which each stage is worked out when it is first asked for. Whoever works on a view that is
//!   no longer the newest gives up ([`GivenUp`]); nothing half done is kept, and going back to a text finds what was known of it;
//! * [`Standing`]: what is known of the verdict, from reading and rules. With a stage missing it fails already or is pending, and never
//!   looks clean.
//!
//! What is the same on two revisions is worked out once ([`Memory`]).
//!
//! ```
//! use latchline_finding::{Edit, Sources};
//! use latchline_session::{Files, Session};
//! use latchline_site::builtin_catalogue;
//!
//! let mut sources = Sources::new();
//! let (name, text) = builtin_catalogue();
//! let catalogue = sources.add(name, text);
//! let site = sources.add("site.toml", "[site]\ntitle = \"Empty\"\nfamily = \"ostrel-48\"\n");
//! let mut session = Session::new(Files { sources, site_file: site, catalogues: vec![catalogue], named: Default::default() });
//! let first = session.view();
//! session.edit(&Edit::set(&["site", "title"], "\"Full\""))?;
//! assert!(session.view().text().contains("Full"));
//! session.undo();
//! assert_eq!(session.view().text(), first.text());
//! # Ok::<(), latchline_site::edit::EditError>(())
//! ```

mod after;
mod alike;
mod catalogues;
mod in_order;
mod known;
mod mend;
mod one_run;
mod revision;
mod session;
mod standing;
mod turn;
mod view;

pub use catalogues::CatalogueReader;
pub use latchline_assess::stage::{WithShortCircuits, WithSignal, WithStartUp, WithVoltages};
pub use latchline_assess::{GivenUp, Memory, Stage, WorkDone};
pub use mend::{Mended, Step};
pub use revision::Revision;
pub use session::{Files, Session};
pub use standing::Standing;
pub use view::{Tolerances, View};
