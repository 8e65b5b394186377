//! Line ends of an edited text.

use similar::TextDiff;

/// An edited text whose lines end as they did before; a new line ends as the one before it.
pub(super) fn kept(before: &str, edited: String) -> String {
    let windows = before.matches("\r\n").count();
    if windows == 0 {
        return edited;
    }
    let edited = edited.replace("\r\n", "\n");
    if windows == before.matches('\n').count() {
        return edited.replace('\n', "\r\n");
    }
    let ends: Vec<&str> =
        before.split_inclusive('\n').map(|line| if line.ends_with("\r\n") { "\r\n" } else { "\n" }).collect();
    let (old, new): (Vec<&str>, Vec<&str>) = (before.lines().collect(), edited.lines().collect());
    let mut end = ends.first().copied().unwrap_or("\n");
    let mut text = String::with_capacity(edited.len() + windows);
    for op in TextDiff::from_slices(&old, &new).ops() {
        let was = op.old_range();
        for (at, index) in op.new_range().enumerate() {
            // Of lines that stand in place of others each ends as the one that stood there, those beyond as the last of them.
            let replaced = was.clone().nth(at).or(was.clone().last());
            end = replaced.and_then(|at| ends.get(at)).copied().unwrap_or(end);
            text.push_str(new[index]);
            text.push_str(end);
        }
        end = was.last().and_then(|at| ends.get(at)).copied().unwrap_or(end);
    }
    if edited.ends_with('\n') { text } else { text.trim_end_matches(['\r', '\n']).to_string() }
}
