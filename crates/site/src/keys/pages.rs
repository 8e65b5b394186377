//! Reference pages from the key tables.

use super::{Kind, TableSpec, Without};
use latchline_finding::Language;

/// The tables of keys of a file in Markdown: one heading and one table for each TOML table, in
/// the order in which they are first mentioned.
pub fn key_tables(root: &'static TableSpec) -> String {
    let mut order: Vec<(&'static TableSpec, String)> = vec![(root, String::new())];
    let mut at = 0;
    while at < order.len() {
        let (spec, path) = order[at].clone();
        for key in spec.keys {
            let here = if path.is_empty() { key.name.to_string() } else { format!("{path}.{}", key.name) };
            if let Some((inner, path)) = inner_table(&key.kind, here)
                && !order.iter().any(|(known, _)| std::ptr::eq(*known, inner))
            {
                order.push((inner, path));
            }
        }
        at += 1;
    }
    order.iter().map(|(spec, path)| section(spec, path)).collect::<Vec<_>>().join("\n")
}

/// The table that a kind leads to and its path.
fn inner_table(kind: &Kind, path: String) -> Option<(&'static TableSpec, String)> {
    match kind {
        Kind::Table(inner) => Some((inner, path)),
        Kind::Named(inner) => Some((inner, format!("{path}.NAME"))),
        Kind::List(item) | Kind::OneOrMany(item) => inner_table(item, path),
        _ => None,
    }
}

fn section(spec: &TableSpec, path: &str) -> String {
    let heading = if path.is_empty() { "Top level".to_string() } else { format!("`[{path}]`") };
    let mut text = format!("### {heading}\n\n{}\n\n| key | value | meaning |\n|---|---|---|\n", spec.doc);
    for key in spec.keys {
        let needed = if key.without == Without::Refused { " (must be there)" } else { "" };
        let value = key.kind.expected().of(Language::English).replace('|', "\\|");
        text.push_str(&format!("| `{}`{needed} | {value} | {} |\n", key.name, key.doc.replace('|', "\\|")));
    }
    text
}
