//! What is true of a site: its revisions, the edits that made them, and the live file beside them.
//!
//! * [`Store`]: sites, each a row of [revisions](Revision) of [texts](Texts); states with names; nothing is ever overwritten;
//! * [`Store::submit`]: a [`Submission`] is brought to the newest revision wherever all that it expects still stands, or is a
//!   [`Conflict`] that shows both. Its id makes sending it again harmless. Taking something back appends the inverse;
//! * [`Store::settle`]: brings the head and the files in a [`LiveFolder`] together, whoever changed them;
//! * [`Store::keep_answer`]: what was asked and answered on the telephone, found again by its words, deleted when it is asked for;
//! * [`Database`]: what keeps it; [`Sqlite`] keeps it in one file. What was accepted is on the medium.
//!
//! ```
//! use latchline_finding::Edit;
//! use latchline_store::{FileChange, Outcome, Proposal, Signed, Sqlite, Store, Submission, Texts};
//!
//! # let folder = tempfile::tempdir()?;
//! let store = Store::new(Sqlite::open(&folder.path().join("store.db"))?)?;
//! let signed = Signed { by: "Kim".to_string(), client: "tab-1".to_string(), ..Signed::default() };
//! let texts = Texts::new("site.toml", "[site]\ntitle = \"Empty\"\n")?;
//! let site = store.create_site("Linden Court", &texts, &signed)?;
//! let edit = Edit::set(&["site", "title"], "\"Full\"");
//! let files = vec![("site.toml".to_string(), FileChange::Edit(edit))];
//! let proposal = Proposal::Change { base: site.head.number, files };
//! let submission = Submission { id: "tab-1/1".to_string(), proposal, signed };
//! let first = store.submit(site.id, &submission)?;
//! assert!(matches!(first, Outcome::Accepted(_)));
//! assert_eq!(store.submit(site.id, &submission)?, first);
//! assert!(store.head(site.id)?.texts.site_text().contains("Full"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod content;
pub mod database;
mod error;
mod hash;
mod live;
mod merge;
mod rebase;
mod revision;
mod rows;
mod schema;
mod sqlite;
mod stack;
mod store;
mod submission;
mod submit;
mod telephone;
mod texts;

pub use database::Database;
pub use error::StoreError;
pub use hash::of_text;
pub use live::{LiveError, LiveFolder, Settled};
pub use revision::{Kind, Number, Revision, Signed, SiteEntry, SiteId, State};
pub use schema::SCHEMA_VERSION;
pub use sqlite::Sqlite;
pub use store::Store;
pub use submission::{
    Clash, Conflict, FileChange, LONGEST_ID, LONGEST_NAME, LONGEST_NOTE, Outcome, Proposal, Submission,
};
pub use submit::Turns;
pub use telephone::{Answer, LONGEST_ANSWER};
pub use texts::{LARGEST_TEXT_BYTES, LONGEST_PATH, MOST_FILES, Texts};
