//! Trials that are given up in the middle.

use crate::common::{SMALL, judge};
use latchline_assess::{Memory, Wanted};
use latchline_finding::Edit;
use latchline_remedy::{Bench, with_remedies};
use latchline_site::LoadedCatalogues;
use std::sync::Arc;

/// Wherever a trial is given up, as where a change is made and taken back meanwhile: either all remedies are found, or the whole is told to be
/// given up. Without that, the trial passes for a change that mends nothing.
#[test]
fn remedies_are_never_short_of_what_was_given_up() {
    let text = SMALL.replace("length = \"9 m\", pairs = 2", "length = \"600 m\"");
    assert_ne!(text, SMALL);
    let judged = judge(&text);
    let edits = |memory: Memory| -> (Vec<Edit>, bool) {
        let loaded = Arc::new(LoadedCatalogues::new(&judged.sources, &judged.catalogues));
        let (site, assessment) = (&judged.site, &judged.assessment);
        let bench = Bench::with_memory(
            &judged.sources,
            judged.file,
            loaded,
            site,
            assessment,
            Arc::new(memory.clone()),
        );
        let found = with_remedies(&bench).0;
        let edits = found.iter().flat_map(|one| &one.remedies).map(|one| one.edit.clone()).collect();
        (edits, memory.check().is_ok())
    };
    let (whole, is_whole) = edits(Memory::default());
    assert!(!whole.is_empty() && is_whole);
    let mut short = 0;
    for before in (0..400).step_by(7) {
        let memory = Memory::default().wanted(Wanted::but_for_check(before));
        let (found, is_whole) = edits(memory.for_one_answer());
        assert!(!is_whole || found == whole, "given up at check {before}");
        short += usize::from(!is_whole && found != whole);
    }
    assert!(short > 0, "a trial that mends was given up at least once");
}
