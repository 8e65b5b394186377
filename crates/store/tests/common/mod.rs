//! Invented sites and short ways to change them.

use latchline_finding::Edit;
use latchline_store::{
    FileChange, Number, Outcome, Proposal, Revision, Signed, SiteId, Sqlite, Store, Submission, Texts,
};
use tempfile::TempDir;

pub const SITE: &str = "site.toml";

pub const HOUSE: &str = r#"[site]
title = "House" # as the owner calls it
family = "ostrel-48"

[dwellings]
F1 = { place = "A/G" }
F2 = { place = "A/1" }
F3 = { place = "A/2" }

[runs]
door = { from = "D1.1", to = ["front"], length = "14 m" }
low = { from = "D1.2", to = ["F1", "F2"], first = "12 m", spacing = "5 m" }
high = { from = "D1.3", to = ["F3"], length = "22 m", cable = "pair-0.8" } # through the cellar
"#;

pub fn signed(client: &str) -> Signed {
    Signed {
        at_ms: 1_790_000_000_000,
        by: format!("{client} by name"),
        client: client.to_string(),
        engine: "0.1.0".to_string(),
        note: String::new(),
    }
}

pub struct Kept {
    pub store: Store,
    pub folder: TempDir,
    pub site: SiteId,
}

pub fn kept() -> Kept {
    let folder = tempfile::tempdir().unwrap();
    let store = Store::new(Sqlite::open(&folder.path().join("store.db")).unwrap()).unwrap();
    let texts = Texts::new(SITE, HOUSE).unwrap();
    let site = store.create_site("House", &texts, &signed("first")).unwrap().id;
    Kept { store, folder, site }
}

impl Kept {
    pub fn text(&self) -> String {
        self.store.head(self.site).unwrap().texts.site_text().to_string()
    }

    pub fn submit(&self, client: &str, id: &str, proposal: Proposal) -> Outcome {
        let submission = Submission { id: id.to_string(), proposal, signed: signed(client) };
        self.store.submit(self.site, &submission).unwrap()
    }

    pub fn edit(&self, client: &str, id: &str, base: i64, edit: Edit) -> Outcome {
        self.submit(client, id, change(base, edit))
    }
}

pub fn change(base: i64, edit: Edit) -> Proposal {
    Proposal::Change { base: Number(base), files: vec![(SITE.to_string(), FileChange::Edit(edit))] }
}

pub fn length(run: &str, metres: u32) -> Edit {
    Edit::set(&["runs", run, "length"], format!("\"{metres} m\""))
}

pub fn accepted(outcome: &Outcome) -> &Revision {
    match outcome {
        Outcome::Accepted(revision) => revision,
        other => panic!("not accepted: {other:?}"),
    }
}

pub fn conflict(outcome: &Outcome) -> &latchline_store::Conflict {
    match outcome {
        Outcome::Conflict(conflict) => conflict,
        other => panic!("no conflict: {other:?}"),
    }
}
