//! Frequent changes made on the site itself, for a first look.
//!
//! Reading the whole text again takes longer than to see that a change does not help. What is offered was written
//! into the text and read again: that says the same, or is judged anew. Rarer changes are made on the tree that was read
//! ([`ParsedSite::changed`](latchline_site::ParsedSite::changed)).

use latchline_finding::{Change, Edit, EditStep, Sourced};
use latchline_site::model::{MeasuredRun, Run, Site};

/// The site as it is after a change, but for the places of what was changed; `None` for changes that are not made here.
pub(crate) fn changed(site: &Site, edit: &Edit) -> Option<Site> {
    // Nothing is copied for a change that is not known here.
    let known = edit.changes.iter().all(|(path, change)| match &path[..] {
        [EditStep::Key(table), EditStep::Key(_), EditStep::Key(key)] => matches!(
            (table.as_str(), key.as_str(), change),
            ("runs", "cable" | "pairs" | "terminator" | "terminator_capacitor", Change::Set(_))
                | ("runs", "existing" | "measured", Change::Remove)
                | ("dwellings", "station", Change::Set(_))
        ),
        _ => false,
    });
    if !known {
        return None;
    }
    let mut after = site.clone();
    for (path, change) in &edit.changes {
        let [EditStep::Key(table), EditStep::Key(name), EditStep::Key(key)] = &path[..] else { return None };
        if table == "dwellings" {
            let dwelling = after.dwellings.iter().find(|one| one.id.as_str() == name)?;
            let station = *dwelling.stations.first()?;
            let model = text(change)?;
            after.catalogue.stations.get(&model)?;
            set(&mut after.stations[station].model, model);
        } else {
            let run = after.runs.iter().position(|one| one.id.as_str() == name)?;
            let (run, cables) = (&mut after.runs[run], &after.catalogue.cables);
            change_run(run, key, change, |cable| cables.contains_key(cable))?;
        }
    }
    Some(after)
}

fn change_run(run: &mut Run, key: &str, change: &Change, is_cable: impl Fn(&str) -> bool) -> Option<()> {
    match key {
        "cable" => set(&mut run.cable, text(change).filter(|name| is_cable(name))?),
        "pairs" => {
            let Change::Set(pairs) = change else { return None };
            set(&mut run.pairs, pairs.trim().parse().ok()?);
        }
        "terminator" => {
            let mut terminator = run.terminator.clone().unwrap_or(Sourced::assumed(false));
            set(&mut terminator, truth(change)?);
            run.terminator = Some(terminator);
        }
        "terminator_capacitor" => set(&mut run.terminator_capacitor, truth(change)?),
        "existing" => run.existing = Sourced::assumed(false),
        "measured" => run.measured = MeasuredRun::default(),
        _ => return None,
    }
    Some(())
}

/// Whether two sites say the same of everything that is changed here.
pub(crate) fn says_the_same(one: &Site, other: &Site) -> bool {
    fn same<T: PartialEq>(one: &Sourced<T>, other: &Sourced<T>) -> bool {
        (&one.value, one.provenance) == (&other.value, other.provenance)
    }
    let is_same_run = |(one, other): (&Run, &Run)| {
        one.id == other.id
            && same(&one.cable, &other.cable)
            && same(&one.pairs, &other.pairs)
            && one.terminator == other.terminator
            && same(&one.terminator_capacitor, &other.terminator_capacitor)
            && same(&one.existing, &other.existing)
            && one.measured == other.measured
    };
    one.runs.len() == other.runs.len()
        && one.stations.len() == other.stations.len()
        && one.runs.iter().zip(&other.runs).all(is_same_run)
        && one.stations.iter().zip(&other.stations).all(|(one, other)| same(&one.model, &other.model))
}

fn set<T>(place: &mut Sourced<T>, value: T) {
    place.value = value;
    place.provenance = latchline_finding::Provenance::Stated;
}

/// The truth that a change sets, if it is one.
fn truth(change: &Change) -> Option<bool> {
    let Change::Set(value) = change else { return None };
    value.trim().parse().ok()
}

/// The text that a change sets, if it is one.
fn text(change: &Change) -> Option<String> {
    let Change::Set(value) = change else { return None };
    let table: toml::Table = format!("value = {value}").parse().ok()?;
    table.get("value")?.as_str().map(str::to_string)
}

#[cfg(test)]
mod tests {
    use super::*;
    use latchline_finding::Sources;
    use latchline_site::{LoadedCatalogues, ParsedSite, builtin_catalogue, edit, resolve};

    const SITE: &str = include_str!("../tests/common/small.toml");

    /// A site as it prints itself, without the places in the text.
    fn without_places(text: &str) -> String {
        let mut sources = Sources::new();
        let (name, catalogue) = builtin_catalogue();
        let catalogue = sources.add(name, catalogue);
        let file = sources.add("site.toml", text);
        let resolved = resolve(&sources, file, &[catalogue]);
        let site = resolved.site.unwrap_or_else(|| panic!("{:#?}", resolved.findings));
        plain(&site)
    }

    fn plain(site: &Site) -> String {
        let parts =
            (&site.runs, &site.stations, &site.dwellings, &site.entrances, &site.boxes, &site.supplies);
        let mut rest = format!("{parts:?}");
        let mut out = String::new();
        while let Some(at) = rest.find("rigin: ") {
            let (before, after) = rest.split_at(at + 7);
            out.push_str(before);
            // An origin prints as a word or as a word with braces or brackets.
            let mut depth = 0;
            let end = after.find(|sign| {
                match sign {
                    '{' | '(' | '[' => depth += 1,
                    '}' | ')' | ']' if depth > 0 => depth -= 1,
                    ',' | '}' | ')' | ']' => return depth == 0,
                    _ => {}
                }
                false
            });
            rest = after[end.unwrap_or(after.len())..].to_string();
        }
        out + &rest
    }

    #[test]
    fn a_change_of_the_site_is_what_the_changed_text_says() {
        let edits = [
            Edit::set(&["runs", "flats", "cable"], "\"pair-0.8\"")
                .then(Edit::remove(&["runs", "flats", "existing"]))
                .then(Edit::remove(&["runs", "flats", "measured"])),
            Edit::set(&["runs", "door", "cable"], "\"flex-1.5\"")
                .then(Edit::set(&["runs", "door", "pairs"], "1")),
            Edit::set(&["runs", "flats", "terminator"], "true")
                .then(Edit::set(&["runs", "flats", "terminator_capacitor"], "false")),
            Edit::set(&["runs", "door", "terminator"], "false"),
            Edit::set(&["dwellings", "A-1", "station"], "\"ostrel-v7\""),
            Edit::set(&["dwellings", "A-2", "station"], "\"ostrel-v4\""),
        ];
        let mut sources = Sources::new();
        let (name, catalogue) = builtin_catalogue();
        let catalogue = sources.add(name, catalogue);
        let file = sources.add("site.toml", SITE);
        let site = resolve(&sources, file, &[catalogue]).site.unwrap();
        for change in edits {
            let by_text = without_places(&edit::apply(SITE, &change).unwrap());
            assert_eq!(plain(&changed(&site, &change).unwrap()), by_text, "{change:?}");
        }
    }

    #[test]
    fn a_change_of_the_tree_is_what_the_changed_text_says() {
        let path_of_extension: Vec<EditStep> =
            vec!["dwellings".into(), "A-2".into(), "extensions".into(), 0.into()];
        let edits = [
            Edit::set(&["runs", "flats", "to"], "[\"A-2\", \"A-1\", \"A-2:2\"]"),
            Edit::set(&["runs", "door", "from"], "\"D.3\""),
            Edit::set(&["runs", "flats", "to"], "[\"A-1\"]")
                .then(Edit::set(&["runs", "flats", "lengths"], "[\"12 m\"]"))
                .then(Edit::set(&["distributors", "D-new"], "{ model = \"ostrel-d4\" }"))
                .then(Edit::set(
                    &["runs", "flats-feed"],
                    "{ from = \"D.4\", to = \"D-new\", cable = \"pair-0.8\", length = \"3 m\" }",
                ))
                .then(Edit::set(
                    &["runs", "flats-2"],
                    "{ from = \"D-new.1\", to = [\"A-2\", \"A-2:2\"], lengths = [\"8.5 m\", \"4 m\"] }",
                ))
                .then(Edit::remove(&["runs", "flats", "measured"])),
            Edit::set(&["runs", "flats", "spacing"], "\"7 m\"")
                .then(Edit::remove(&["runs", "flats", "lengths"]))
                .then(Edit::set(&["runs", "flats", "measured", "loop"], "\"6 ohm\"")),
            Edit::set(&["entrances", "E", "lock"], "{ model = \"strike-12\", feed = \"station\" }"),
            Edit { changes: vec![(path_of_extension.clone(), Change::Set("\"ostrel-v4\"".into()))] },
            Edit::set(&["policy", "thin_margin"], "\"1 V\""),
            Edit::set(&["runs", "door", "from"], "\"D.9\""),
        ];
        let mut sources = Sources::new();
        let (name, catalogue) = builtin_catalogue();
        let catalogue = sources.add(name, catalogue);
        let file = sources.add("site.toml", SITE);
        let loaded = LoadedCatalogues::new(&sources, &[catalogue]);
        let parsed = ParsedSite::new(file, sources.file(file));
        let mut usable = 0;
        for change in edits {
            let by_tree = parsed.changed(&change).and_then(|parsed| loaded.site_of(&parsed));
            let text = edit::apply(SITE, &change).unwrap();
            let changed = sources.with_text(file, text.as_str());
            let by_text = loaded.resolve(&changed, file).site;
            assert_eq!(by_tree.as_ref().map(plain), by_text.as_ref().map(plain), "{change:?}");
            // What is read of the text says the same as the tree, and not as the tree before.
            let written = ParsedSite::new(file, changed.file(file));
            assert!(parsed.changed(&change).unwrap().says_the_same(&written), "{change:?}");
            assert!(!parsed.says_the_same(&written), "{change:?}");
            usable += usize::from(by_text.is_some());
        }
        assert!(usable >= 5, "{usable}");
        // What can only be done to a text is left to it, and what cannot be done is not done.
        for change in [Edit::lines(0, "a\n", "b\n"), Edit::remove(&["runs", "none"])] {
            assert!(parsed.changed(&change).is_none(), "{change:?}");
        }
    }

    #[test]
    fn other_changes_go_the_long_way() {
        let mut sources = Sources::new();
        let (name, catalogue) = builtin_catalogue();
        let catalogue = sources.add(name, catalogue);
        let file = sources.add("site.toml", SITE);
        let site = resolve(&sources, file, &[catalogue]).site.unwrap();
        for change in [
            Edit::set(&["runs", "flats", "from"], "\"D.3\""),
            Edit::set(&["runs", "flats", "cable"], "\"no such cable\""),
            Edit::set(&["runs", "none", "cable"], "\"pair-0.8\""),
            Edit::set(&["dwellings", "A-1", "station"], "7"),
        ] {
            assert_eq!(changed(&site, &change), None, "{change:?}");
        }
    }
}
