//! Rows of site files that were read before, kept by their text.
//!
//! A *row* is a line `name = value` with the lines that its lists and long texts go on for. What it says depends on its own text
//! alone, but for where it stands; so a text of which most rows were read before is put together from these, each moved to its
//! place. Whatever is not plain (a mistake, a name with points, a head that stands twice) is left to the TOML library, which then
//! reads the whole text: what comes out is the same either way.

use super::pieces::{closed_at, line_end, shifted_value};
use std::borrow::Cow;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeArray, DeTable, DeValue};

/// Rows that are kept beyond those of the text that was read last.
const MOST_OTHERS: usize = 4_096;

self_cell::self_cell!(
    /// A row with what it says, at places that count from its first byte.
    struct Row {
        owner: Box<str>,
        #[covariant]
        dependent: DeTable,
    }
);

/// A row, and the text in which it stood last.
struct Kept {
    row: Row,
    last: u64,
}

/// Rows that were read before.
#[derive(Default)]
pub struct Rows {
    kept: BTreeMap<Box<str>, Kept>,
    /// Number of the text that was read last.
    texts: u64,
}

impl std::fmt::Debug for Rows {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        formatter.debug_struct("Rows").field("kept", &self.kept.len()).field("texts", &self.texts).finish()
    }
}

/// A part of a text: a row, or the head of a table.
enum Part {
    Row(Range<usize>),
    Head(Range<usize>),
}

/// A head `[name]`, `[name.name]` or `[[name]]`.
struct Head<'t> {
    /// Its names, each with its place.
    path: Vec<Spanned<Cow<'t, str>>>,
    /// With its brackets.
    span: Range<usize>,
    /// Whether it begins one more table of a list.
    is_of_list: bool,
}

impl Rows {
    /// The tree of a text; `None` where it is one for the TOML library. Rows that are new are kept.
    pub(super) fn read<'m>(&'m mut self, text: &'m str) -> Option<DeTable<'m>> {
        let parts = parts(text)?;
        if self.kept.len() > parts.len() + MOST_OTHERS {
            let last = self.texts;
            self.kept.retain(|_, kept| kept.last == last);
        }
        self.texts += 1;
        for part in &parts {
            let Part::Row(range) = part else { continue };
            let row = &text[range.clone()];
            match self.kept.get_mut(row) {
                Some(known) => known.last = self.texts,
                None => {
                    let kept = Kept { row: read_row(row)?, last: self.texts };
                    self.kept.insert(row.into(), kept);
                }
            }
        }
        self.tree(text, &parts)
    }

    fn tree<'m>(&'m self, text: &'m str, parts: &[Part]) -> Option<DeTable<'m>> {
        let mut tree = Tree::default();
        let mut table = DeTable::new();
        let mut under: Option<Head<'m>> = None;
        for part in parts {
            match part {
                Part::Head(range) => {
                    tree.put(under.take(), std::mem::take(&mut table))?;
                    under = Some(head(&text[range.clone()], range.start)?);
                }
                Part::Row(range) => {
                    let row = self.kept.get(&text[range.clone()])?;
                    let (key, value) = row.row.borrow_dependent().iter().next()?;
                    let at = key.span();
                    let key =
                        Spanned::new(at.start + range.start..at.end + range.start, key.get_ref().clone());
                    if table.insert(key, shifted_value(value.clone(), range.start)).is_some() {
                        return None;
                    }
                }
            }
        }
        tree.put(under, table)?;
        Some(tree.root)
    }
}

/// What heads have opened so far.
#[derive(Default)]
struct Tree<'m> {
    root: DeTable<'m>,
    /// Names of the tables that a head has opened.
    opened: BTreeSet<String>,
    /// Names of the lists that heads have opened.
    lists: BTreeSet<String>,
}

impl<'m> Tree<'m> {
    /// Puts what stands under a head in its place; what stands before the first one is the root itself. `None` where the place is
    /// taken, or one that no head of its own has opened.
    fn put(&mut self, head: Option<Head<'m>>, table: DeTable<'m>) -> Option<()> {
        let Some(mut head) = head else {
            self.root = table;
            return Some(());
        };
        let own = head.path.pop()?;
        let mut into = &mut self.root;
        let mut name = String::new();
        for key in &head.path {
            name = format!("{name}{}.", key.get_ref());
            into = match into.get_mut(&**key.get_ref())?.get_mut() {
                DeValue::Table(inner) if self.opened.contains(&name) => inner,
                _ => return None,
            };
        }
        name = format!("{name}{}.", own.get_ref());
        let value = Spanned::new(head.span.clone(), DeValue::Table(table));
        match (into.get_mut(&**own.get_ref()), head.is_of_list) {
            (None, false) => {
                into.insert(own, value);
                self.opened.insert(name);
            }
            (None, true) => {
                let mut rows = DeArray::new();
                rows.push(value);
                into.insert(own, Spanned::new(head.span, DeValue::Array(rows)));
                self.lists.insert(name);
            }
            (Some(known), true) if self.lists.contains(&name) => match known.get_mut() {
                DeValue::Array(rows) => rows.push(value),
                _ => return None,
            },
            (Some(_), _) => return None,
        }
        Some(())
    }
}

/// The rows and heads of a text in their order; `None` where it cannot be told where one ends, or a remark holds what none may.
fn parts(text: &str) -> Option<Vec<Part>> {
    let mut parts = Vec::new();
    let mut at = 0;
    while at < text.len() {
        let end = line_end(text, at);
        let line = text[at..end].trim_start_matches([' ', '\t']);
        if line.starts_with('[') {
            parts.push(Part::Head(at..end));
            at = end;
        } else if is_blank(line) {
            at = end;
        } else {
            let end = closed_at(text, at, true)?;
            parts.push(Part::Row(at..end));
            at = end;
        }
    }
    Some(parts)
}

/// Whether nothing or a remark stands on a line, or on what is left of it.
fn is_blank(line: &str) -> bool {
    let line = line.strip_suffix('\n').map_or(line, |line| line.strip_suffix('\r').unwrap_or(line));
    let line = line.trim_start_matches([' ', '\t']);
    line.is_empty()
        || (line.starts_with('#') && !line.contains(|sign: char| sign.is_control() && sign != '\t'))
}

/// A row by itself; `None` if it cannot be read, or its name is one of several parts.
fn read_row(text: &str) -> Option<Row> {
    // The mark is let pass at the beginning of a text, which a row is only to itself.
    if text.starts_with('\u{feff}') {
        return None;
    }
    let row = Row::try_new(text.into(), |text| DeTable::parse(text).map(Spanned::into_inner)).ok()?;
    let is_plain = {
        let mut entries = row.borrow_dependent().iter();
        let first = entries.next();
        let is_one = entries.next().is_none();
        first.is_some_and(|(key, _)| text[key.span().end..].trim_start_matches([' ', '\t']).starts_with('='))
            && is_one
    };
    is_plain.then_some(row)
}

/// A head whose names need no quotes and stand without spaces; `None` for any other.
fn head(line: &str, at: usize) -> Option<Head<'_>> {
    let indent = line.len() - line.trim_start_matches([' ', '\t']).len();
    let written = &line[indent..];
    let is_of_list = written.starts_with("[[");
    let (open, close) = if is_of_list { ("[[", "]]") } else { ("[", "]") };
    let (names, rest) = written.strip_prefix(open)?.split_once(close)?;
    if !is_blank(rest) {
        return None;
    }
    let mut from = at + indent + open.len();
    let mut path = Vec::new();
    for name in names.split('.') {
        let is_bare = |sign: char| sign.is_ascii_alphanumeric() || sign == '-' || sign == '_';
        if name.is_empty() || !name.chars().all(is_bare) {
            return None;
        }
        path.push(Spanned::new(from..from + name.len(), Cow::Borrowed(name)));
        from += name.len() + 1;
    }
    let end = at + indent + open.len() + names.len() + close.len();
    Some(Head { path, span: at + indent..end, is_of_list })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const TWELVE_FLATS: &str = include_str!("../../../../docs/examples/twelve-flats.toml");

    /// The places of all keys and values with what they are, in the order of the tree.
    fn flat(table: &DeTable<'_>, out: &mut Vec<String>) {
        for (key, value) in table {
            out.push(format!("{:?} {}", key.span(), key.get_ref()));
            flat_value(value, out);
        }
    }

    fn flat_value(value: &Spanned<DeValue<'_>>, out: &mut Vec<String>) {
        match value.get_ref() {
            DeValue::Table(table) => {
                out.push(format!("{:?} table of {}", value.span(), table.len()));
                flat(table, out);
            }
            DeValue::Array(items) => {
                out.push(format!("{:?} list of {}", value.span(), items.len()));
                items.iter().for_each(|item| flat_value(item, out));
            }
            plain => out.push(format!("{:?} {plain:?}", value.span())),
        }
    }

    fn told(table: &DeTable<'_>) -> Vec<String> {
        let mut out = Vec::new();
        flat(table, &mut out);
        out
    }

    /// Whether a text is put together from rows; if it is, the tree is that of the TOML library, which finds no mistake in it.
    fn is_put_together(rows: &mut Rows, text: &str) -> bool {
        let whole = DeTable::parse(text);
        let Some(own) = rows.read(text) else { return false };
        let whole = whole.unwrap_or_else(|error| panic!("read from rows, but {error}: {text:?}"));
        assert_eq!(told(&own), told(whole.get_ref()), "{text:?}");
        true
    }

    #[test]
    fn files_as_people_write_them_are_put_together() {
        let mut rows = Rows::default();
        assert!(is_put_together(&mut rows, TWELVE_FLATS));
        let kept = rows.kept.len();
        let changed = TWELVE_FLATS.replacen("m\"", " m\"", 1);
        assert_ne!(changed, TWELVE_FLATS);
        assert!(is_put_together(&mut rows, &changed));
        assert_eq!(rows.kept.len(), kept + 1, "one row is new");
        assert!(is_put_together(&mut rows, TWELVE_FLATS));
        assert_eq!(rows.kept.len(), kept + 1, "nothing is");
        for text in [
            "# remark\r\n\r\na = 1 # one\r\n  \"b c\" = [\r\n  1, # two\r\n  2,\r\n]\r\n[t]\r\nx = { y = \"]\" }",
            "[a]\nx = 1\n[a.b]\ny = 2\n[[c]]\nz = 1\n[[c]]\nz = 2\n",
            "s = \"\"\"\na = 1\n[t]\n\"\"\"\nn = 1_000\nd = 2026-03-02\n",
            "",
        ] {
            assert!(is_put_together(&mut rows, text), "{text:?}");
        }
    }

    #[test]
    fn what_is_not_plain_is_left_to_the_library() {
        let mut rows = Rows::default();
        for text in [
            "a = 1\na = 2\n",
            "a.b = 1\n",
            "a = { b = 1 }\n[a.c]\n",
            "[a.b]\n",
            "[a]\n[a]\n",
            "[a]\n[[a]]\n",
            "a = []\n[[a]]\n",
            "[ a ]\n",
            "[a\n",
            "a = 1 b = 2\n",
            "a = \n",
            "# \u{7}\n",
            "a = [1,\n",
            "a = \"\n",
            "\u{feff}a = 1\n",
            "a = 1\n\u{feff}b = 2\n",
        ] {
            assert!(!is_put_together(&mut rows, text), "{text:?}");
        }
    }

    #[test]
    fn rows_of_texts_long_gone_are_let_go() {
        let mut rows = Rows::default();
        for number in 0..3 * MOST_OTHERS {
            assert!(is_put_together(&mut rows, &format!("a = {number}\n")));
        }
        assert!(rows.kept.len() <= 2 + MOST_OTHERS);
        // Nor are those of texts that cannot be read kept without end.
        for number in 0..3 * MOST_OTHERS {
            assert!(!is_put_together(&mut rows, &format!("b = {number}\nb = \n")));
        }
        assert!(rows.kept.len() <= 4 + MOST_OTHERS);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(512))]
        #[test]
        fn whatever_is_put_together_is_what_the_library_reads(
            lines in prop::collection::vec(
                prop_oneof![
                    Just("[t]"), Just("[t.u]"), Just("[[l]]"), Just("[l.u]"), Just("  [v] # remark"), Just("a = 1"), Just("b = \"x"),
                    Just("b = [1, {c = 2}]"), Just("b = ["), Just("]"), Just("c = {d = 1}"), Just("c.d = 1"), Just("\"q\" = '#'"),
                    Just("# remark"), Just(""), Just("e = \"\"\""), Just("\"\"\""), Just("f = 1 # \"[\""), Just("g = }"), Just("\t h = 0x1f"), Just("\u{feff}m = 1"),
                ],
                0..9,
            ),
            end in prop_oneof![Just("\n"), Just("\r\n"), Just("\r")],
            last in any::<bool>(),
        ) {
            let mut text = lines.join(end);
            if last {
                text.push_str(end);
            }
            let mut rows = Rows::default();
            // Twice: from rows that are new, and from rows that are kept.
            let first = is_put_together(&mut rows, &text);
            prop_assert_eq!(is_put_together(&mut rows, &text), first);
        }

        #[test]
        fn cut_and_changed_files(from in 0..3000_usize, length in 0..40_usize, put in "[\\x00-\\x7f\u{e4}]{0,6}") {
            let place = |at: usize| (0..=at.min(TWELVE_FLATS.len())).rev().find(|at| TWELVE_FLATS.is_char_boundary(*at)).unwrap_or(0);
            let (start, end) = (place(from), place(from + length));
            let text = format!("{}{put}{}", &TWELVE_FLATS[..start], &TWELVE_FLATS[end..]);
            let mut rows = Rows::default();
            is_put_together(&mut rows, TWELVE_FLATS);
            is_put_together(&mut rows, &text);
        }
    }
}
