//! Work that is given up in its middle leaves nothing behind.

use latchline_assess::{Assessing, Effort, GivenUp, Memory, VerdictSoFar, Wanted, assess, assess_with};
use latchline_finding::Sources;
use latchline_site::model::Site;
use latchline_site::{builtin_catalogue, resolve};
use std::collections::BTreeSet;

/// Two supplies with a link between them, doors and dwellings on both.
const HOUSE: &str = include_str!("given_up.toml");

fn house() -> Site {
    let mut sources = Sources::new();
    let site_file = sources.add("site.toml", HOUSE);
    let (name, catalogue) = builtin_catalogue();
    let catalogue = sources.add(name, catalogue);
    let resolved = resolve(&sources, site_file, &[catalogue]);
    resolved.site.unwrap_or_else(|| panic!("{:#?}", resolved.findings))
}

/// At every place at which the work can be given up: what was given up is still to come, the verdict is not known, and whoever goes on with
/// what was remembered meanwhile comes to what is found from nothing.
#[test]
fn a_stage_given_up_in_its_middle_is_never_kept() {
    let site = house();
    let whole = assess(&site);
    let mut places = 0;
    let mut pending: BTreeSet<usize> = BTreeSet::new();
    loop {
        let memory = Memory::default();
        let assessing = Assessing::new(&site, Effort::Whole, &memory.wanted(Wanted::for_checks(places)));
        if let Ok(found) = assessing.assessment() {
            assert_eq!(*found, whole);
            break;
        }
        assert_eq!(assessing.assessment(), Err(GivenUp), "it stays given up");
        assert!(!matches!(assessing.verdict_so_far(), VerdictSoFar::Known(_)), "after {places} checks");
        pending.insert(assessing.pending().len());
        assert_eq!(assess_with(&site, &memory), whole, "after {places} checks");
        places += 1;
        assert!(places < 10_000, "it comes to an end");
    }
    // Before any stage, with some in, and behind the last.
    assert!(places > 20 && pending.len() >= 3, "{places} places, with {pending:?} stages to come");
}
