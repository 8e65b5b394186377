//! Sessions on invented sites, for the tests.

use latchline_assess::Assessment;
use latchline_finding::{FileId, Finding, Sources};
use latchline_session::{Files, Session};
use latchline_site::{builtin_catalogue, resolve};
use std::collections::BTreeMap;

/// A house that holds on assumed data: two supplies, the second reached over a signal link, a door with its lock, an acceptance.
pub const HOUSE: &str = r#"[site]
title = "House"
family = "ostrel-48"
indoor_station = "ostrel-v4"
door_station = "ostrel-dv1"
cable = "pair-0.8"

[buildings]
A = { floors = ["G", "1", "2"] }

[supplies]
P1 = { model = "ostrel-ps-60", place = "A/G" }
P2 = { model = "ostrel-ps-60", place = "A/1" }

[distributors]
D1 = { model = "ostrel-d4", place = "A/G" }
I1 = { model = "ostrel-i2", place = "A/1" }
D2 = { model = "ostrel-d4", place = "A/1" }

[entrances]
front = { role = "main", place = "A/G", escape_route = false, escape_decided_by = "fire risk assessor", escape_decided_on = 2026-03-02, lock = { model = "strike-12", cable = "flex-1.0", length = "4 m" } }

[dwellings]
F1 = { place = "A/G" }
F2 = { place = "A/1" }
F3 = { place = "A/1" }
F4 = { place = "A/2" }
F5 = { place = "A/2" }

[runs]
feed1 = { from = "P1", to = ["D1"], length = "2 m" }
door = { from = "D1.1", to = ["front"], length = "14 m" }
low = { from = "D1.2", to = ["F1", "F2"], first = "12 m", spacing = "5 m" }
link = { from = "D1.3", to = ["I1.link"], length = "4 m" }
feed2 = { from = "P2", to = ["I1"], length = "2 m" }
riser = { from = "I1.1", to = ["D2"], length = "3 m" }
high = { from = "D2.1", to = ["F3", "F4", "F5"], first = "12 m", spacing = "5 m" }

[[accept]]
code = "silenced-group"
reason = "agreed"
date = 2026-01-05
"#;

/// A text with the built-in catalogue.
pub fn files(text: &str) -> Files {
    let mut sources = Sources::new();
    let site_file = sources.add("site.toml", text);
    let (name, catalogue) = builtin_catalogue();
    let catalogue = sources.add(name, catalogue);
    Files { sources, site_file, catalogues: vec![catalogue], named: BTreeMap::new() }
}

/// A session on it.
pub fn session(text: &str) -> Session {
    Session::new(files(text))
}

/// The whole assessment of a text, worked out by itself; `None` with the findings of reading if it cannot be used.
pub fn whole(text: &str) -> (Option<Assessment>, Vec<Finding>) {
    let Files { sources, site_file, catalogues, .. } = files(text);
    let resolved = resolve(&sources, site_file, &catalogues as &[FileId]);
    (resolved.site.as_ref().map(latchline_assess::assess), resolved.findings)
}
