//! A file whose TOML is broken, read row by row: what is left open in one row ends with it, so that all other rows are read and their
//! mistakes told.
//!
//! A *row* is a head `[runs]` or a line `name = value`, with the lines that its lists and long texts go on for. Rows that can be read
//! alone are read together, as far as they follow one another; one that cannot is read by itself, as far as it goes. What comes out is put
//! under the head that it stands under.

use std::borrow::Cow;
use std::ops::Range;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

/// How far the end of what a row leaves open is looked for, in bytes.
const LONGEST_ROW: usize = 64 * 1024;
/// Broken rows for which that is done; later ones end with their line.
const MOST_FOLLOWED: usize = 50;

/// What is said of a head that lacks its first bracket, which the library takes for a key.
pub(super) const FIRST_BRACKET: &str = "a head without its first bracket";

/// A mistake of TOML.
#[derive(Debug, Clone)]
pub(super) struct Slip {
    /// Where.
    pub at: Range<usize>,
    /// What the library says.
    pub message: String,
    /// The row that it breaks, and what that row names, where it is one.
    pub row: Option<(Range<usize>, Option<String>)>,
    /// Whether it is a head of which no name could be made out, so that what stands under it is not read.
    pub loses_table: bool,
}

/// The tree of a file as far as it could be read, and what is wrong, in the order of the file.
pub(super) fn read(text: &str) -> (DeTable<'_>, Vec<Slip>) {
    let (root, errors) = DeTable::parse_recoverable(text);
    let stays = |error: &toml::de::Error| is_duplicate(error.message()) || is_depth(error.message());
    if errors.iter().all(stays) || errors.iter().any(|error| is_depth(error.message())) {
        let slip = |error: &toml::de::Error| Slip {
            at: error.span().unwrap_or(0..0),
            message: error.message().to_string(),
            row: None,
            loses_table: false,
        };
        return (root.into_inner(), errors.iter().map(slip).collect());
    }
    let mut pieces = Pieces { text, root: DeTable::new(), under: Some(Vec::new()), slips: Vec::new() };
    pieces.read();
    (pieces.root, pieces.slips)
}

/// Whether a message of the library is of a key that stands there already.
pub(super) fn is_duplicate(message: &str) -> bool {
    message.starts_with("duplicate key")
}

/// Whether a message of the library is of too deep a nesting.
pub(super) fn is_depth(message: &str) -> bool {
    message.contains("recurs")
}

type Key<'t> = Spanned<Cow<'t, str>>;

struct Pieces<'t> {
    text: &'t str,
    root: DeTable<'t>,
    /// The head that rows stand under; `None` where it could not be made out.
    under: Option<Vec<Key<'t>>>,
    slips: Vec<Slip>,
}

impl<'t> Pieces<'t> {
    fn read(&mut self) {
        let mut at = 0;
        let mut followed = 0;
        // Where rows begin that can be read together.
        let mut from = 0;
        while at < self.text.len() {
            let line = line_end(self.text, at);
            let start = self.text[at..line].trim_start();
            if start.is_empty() || start.starts_with('#') {
                at = line;
                continue;
            }
            if start.starts_with('[') || lacks_first_bracket(start) {
                self.sound(from..at);
                match head(&self.text[at..line], at) {
                    // Lists of tables get their next one from the head itself, so it is read with its rows.
                    Some(path) => (self.under, from) = (Some(path), at),
                    None => {
                        self.broken_head(at..line);
                        from = line;
                    }
                }
                at = line;
                continue;
            }
            let end = closed_at(self.text, at, followed < MOST_FOLLOWED);
            if let Some(end) = end.filter(|end| DeTable::parse(&self.text[at..*end]).is_ok()) {
                at = end;
                continue;
            }
            followed += 1;
            let end = row_end(self.text, at);
            self.sound(from..at);
            self.broken(at..end);
            (at, from) = (end, end);
        }
        self.sound(from..at);
        self.slips.sort_by_key(|slip| slip.at.start);
    }

    /// Rows that can be read, the head that they stand under first where it is among them.
    fn sound(&mut self, range: Range<usize>) {
        let slice = &self.text[range.clone()];
        if slice.trim().is_empty() {
            return;
        }
        let (table, errors) = DeTable::parse_recoverable(slice);
        for error in errors {
            self.slip(&error, range.start, None);
        }
        let table = shifted(table.into_inner(), range.start);
        if starts_with_head(slice) {
            self.put_in(Some(Vec::new()), table);
        } else {
            self.put_in(self.under.clone(), table);
        }
    }

    /// A row that cannot be read: as much of it as the library makes out, and its first mistake.
    fn broken(&mut self, range: Range<usize>) {
        let slice = &self.text[range.clone()];
        let (table, mut errors) = DeTable::parse_recoverable(slice);
        // A text that is not closed comes first of what ends where it does: a brace behind it is in it.
        errors.sort_by_key(|error| {
            (error.span().map_or(0, |span| span.start), !error.message().starts_with("invalid"))
        });
        let names = name_of_row(slice).map(str::to_string);
        if let Some(first) = errors.first() {
            self.slip(first, range.start, Some((range.clone(), names.clone())));
        }
        // What was made out beside the row's own name is not what was meant.
        let is_own = |key: &str| names.as_deref().is_none_or(|name| name == key);
        let own = shifted(table.into_inner(), range.start).into_iter();
        let own: DeTable<'t> = own.filter(|(key, _)| is_own(key.get_ref())).collect();
        self.put_in(self.under.clone(), own);
    }

    /// A head that cannot be read: what stands under it is put where its name says.
    fn broken_head(&mut self, range: Range<usize>) {
        let slice = &self.text[range.clone()];
        let name = slice.trim_matches(|sign: char| sign.is_whitespace() || sign == '[');
        let length = name.find(|sign: char| !(sign.is_alphanumeric() || "_-.".contains(sign)));
        let name = &name[..length.unwrap_or(name.len())];
        let at = range.start + (name.as_ptr() as usize - slice.as_ptr() as usize);
        let mut path = Vec::new();
        let mut part_at = at;
        for part in name.split('.') {
            path.push(Spanned::new(part_at..part_at + part.len(), Cow::Borrowed(part)));
            part_at += part.len() + 1;
        }
        self.under = Some(path).filter(|path| path.iter().all(|part| !part.get_ref().is_empty()));
        let (_, errors) = DeTable::parse_recoverable(slice);
        let loses_table = self.under.is_none();
        if let Some(first) = errors.first() {
            self.slip(first, range.start, Some((range, None)));
            if let Some(slip) = self.slips.last_mut() {
                if !slice.trim_start().starts_with('[') {
                    slip.message = String::from(FIRST_BRACKET);
                }
                slip.loses_table = loses_table;
            }
        }
    }

    fn slip(&mut self, error: &toml::de::Error, by: usize, row: Option<(Range<usize>, Option<String>)>) {
        let at = error.span().unwrap_or(0..0);
        self.slips.push(Slip {
            at: at.start + by..at.end + by,
            message: error.message().to_string(),
            row,
            loses_table: false,
        });
    }

    /// Puts a table under a path; without one it is left out.
    fn put_in(&mut self, path: Option<Vec<Key<'t>>>, table: DeTable<'t>) {
        let Some(path) = path else { return };
        let mut into = &mut self.root;
        for key in path {
            let span = key.span();
            let name = key.get_ref().clone();
            if !into.contains_key(&*name) {
                into.insert(key, Spanned::new(span, DeValue::Table(DeTable::new())));
            }
            let value = into.get_mut(&*name).map(Spanned::get_mut);
            into = match value {
                Some(DeValue::Table(inner)) => inner,
                Some(DeValue::Array(items)) => match items.last_mut().map(Spanned::get_mut) {
                    Some(DeValue::Table(inner)) => inner,
                    _ => return,
                },
                _ => return,
            };
        }
        merge(into, table, &mut self.slips);
    }
}

/// Adds one table to another; what stands in both is a duplicate.
fn merge<'t>(into: &mut DeTable<'t>, from: DeTable<'t>, slips: &mut Vec<Slip>) {
    for (key, value) in from {
        let Some(known) = into.get_mut(key.get_ref().as_ref()) else {
            into.insert(key, value);
            continue;
        };
        match (known.get_mut(), value.into_inner()) {
            (DeValue::Table(known), DeValue::Table(more)) => merge(known, more, slips),
            (DeValue::Array(known), DeValue::Array(more))
                if more.iter().all(|item| matches!(item.get_ref(), DeValue::Table(_))) =>
            {
                more.into_iter().for_each(|item| known.push(item));
            }
            _ => slips.push(Slip {
                at: key.span(),
                message: String::from("duplicate key"),
                row: None,
                loses_table: false,
            }),
        }
    }
}

/// A table of a part of the text with the places that it has in the whole.
fn shifted(table: DeTable<'_>, by: usize) -> DeTable<'_> {
    let moved = |span: Range<usize>| span.start + by..span.end + by;
    table
        .into_iter()
        .map(|(key, value)| {
            let key = Spanned::new(moved(key.span()), key.into_inner());
            (key, shifted_value(value, by))
        })
        .collect()
}

/// A value of a part of the text with the places that it has in the whole.
pub(super) fn shifted_value(value: Spanned<DeValue<'_>>, by: usize) -> Spanned<DeValue<'_>> {
    let span = value.span().start + by..value.span().end + by;
    let inner = match value.into_inner() {
        DeValue::Table(table) => DeValue::Table(shifted(table, by)),
        DeValue::Array(items) => {
            DeValue::Array(items.into_iter().map(|item| shifted_value(item, by)).collect())
        }
        other => other,
    };
    Spanned::new(span, inner)
}

/// The path of a head line; `None` where it cannot be read.
fn head(line: &str, at: usize) -> Option<Vec<Key<'_>>> {
    let mut table = shifted(DeTable::parse(line).ok()?.into_inner(), at);
    let mut path = Vec::new();
    while let Some((key, value)) = table.into_iter().next() {
        path.push(key);
        table = match value.into_inner() {
            DeValue::Table(inner) => inner,
            DeValue::Array(items) => match items.into_iter().next().map(Spanned::into_inner) {
                Some(DeValue::Table(inner)) => inner,
                _ => return None,
            },
            _ => return None,
        };
    }
    Some(path)
}

/// Whether the first line that is neither empty nor a remark is a head.
fn starts_with_head(slice: &str) -> bool {
    let first = slice.lines().map(str::trim_start).find(|line| !line.is_empty() && !line.starts_with('#'));
    first.is_some_and(|line| line.starts_with('['))
}

/// One past the end of the line on which a place is.
pub(super) fn line_end(text: &str, from: usize) -> usize {
    text[from..].find('\n').map_or(text.len(), |length| from + length + 1)
}

/// The end of the line on which everything is closed that a row opens; `None` where it is not, or only farther on than is followed.
pub(super) fn closed_at(text: &str, from: usize, follow: bool) -> Option<usize> {
    let mut most = text.len().min(from + LONGEST_ROW);
    if !follow {
        most = line_end(text, from);
    }
    while !text.is_char_boundary(most) {
        most -= 1;
    }
    let row = &text[from..most];
    let mut depth = 0_i32;
    let mut at = 0;
    while at < row.len() {
        let rest = &row[at..];
        let sign = rest.chars().next()?;
        at += match sign {
            '#' => rest.find('\n').unwrap_or(rest.len()),
            '"' | '\'' => text_length(rest, sign)?,
            '[' | '{' => {
                depth += 1;
                1
            }
            ']' | '}' => {
                depth -= 1;
                1
            }
            '\n' if depth <= 0 => return Some(from + at + 1),
            sign => sign.len_utf8(),
        };
    }
    (depth <= 0 && most == text.len()).then_some(text.len())
}

/// Length of a text that begins with a quote; one that is not closed ends with its line. `None` where a long one is not closed.
fn text_length(rest: &str, quote: char) -> Option<usize> {
    let long = [quote; 3].iter().collect::<String>();
    if let Some(inner) = rest.strip_prefix(&*long) {
        return Some(inner.find(&*long)? + 2 * long.len());
    }
    let mut escaped = false;
    for (at, sign) in rest.char_indices().skip(1) {
        match sign {
            '\n' => return Some(at),
            _ if escaped => escaped = false,
            '\\' if quote == '"' => escaped = true,
            sign if sign == quote => return Some(at + 1),
            _ => {}
        }
    }
    Some(rest.len())
}

/// The end of a row that cannot be read: before the next line that begins a row or a head, no farther in than this one, or is empty.
fn row_end(text: &str, from: usize) -> usize {
    let indent = |line: &str| line.len() - line.trim_start().len();
    let mut end = line_end(text, from);
    let own = indent(&text[from..end]);
    while end < text.len() {
        let next = line_end(text, end);
        let line = &text[end..next];
        let is_next_row = (is_head(line) || name_of_row(line).is_some()) && indent(line) <= own;
        if line.trim().is_empty() || is_next_row {
            break;
        }
        end = next;
    }
    end
}

/// Whether a line is a head that lacks its first bracket: `runs]`.
fn lacks_first_bracket(line: &str) -> bool {
    let name = line.split('#').next().unwrap_or_default().trim_end();
    let name = name.strip_suffix(']').unwrap_or_default();
    !name.is_empty() && name.chars().all(|sign| sign.is_alphanumeric() || "_-.".contains(sign))
}

fn is_head(line: &str) -> bool {
    let name = line.trim_start().trim_start_matches('[');
    line.trim_start().starts_with('[') && name.starts_with(|sign: char| sign.is_alphabetic() || sign == '_')
}

/// What a row names: the part before `=`, or before the brace or colon that stands in its place.
fn name_of_row(row: &str) -> Option<&str> {
    let row = row.trim_start();
    let (name, rest) = match row.strip_prefix('"') {
        Some(quoted) => {
            let (name, rest) = quoted.split_at(quoted.find(['"', '\n'])?);
            (name, rest.strip_prefix('"')?)
        }
        None => row.split_at(row.find(|sign: char| !(sign.is_alphanumeric() || "_- .".contains(sign)))?),
    };
    let is_row = !name.trim().is_empty() && rest.trim_start_matches([' ', '\t']).starts_with(['=', ':', '{']);
    is_row.then(|| name.trim())
}
