//! A change that may mend a finding, not yet tried.

pub(crate) use latchline_site::edit::quoted;

use latchline_finding::Edit;

/// The kind of two changes in one.
pub const TWO_CHANGES: &str = "two-changes";

/// A candidate.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate {
    /// What kind of remedy, in kebab case.
    pub kind: &'static str,
    /// The change.
    pub edit: Edit,
    /// Where it is several changes in one, each with its kind; else empty.
    pub parts: Vec<(&'static str, Edit)>,
    /// Whether the bill knows what it costs; what it does not know stands behind what it does.
    pub is_priced: bool,
}

impl Candidate {
    /// A candidate of this kind.
    pub fn new(kind: &'static str, edit: Edit) -> Self {
        Candidate { kind, edit, parts: Vec::new(), is_priced: true }
    }

    /// Two changes in one.
    pub fn both(one: &Candidate, other: &Candidate) -> Self {
        Candidate {
            kind: TWO_CHANGES,
            edit: one.edit.clone().then(other.edit.clone()),
            parts: vec![(one.kind, one.edit.clone()), (other.kind, other.edit.clone())],
            is_priced: one.is_priced && other.is_priced,
        }
    }

    /// The same, with a part that is in no bill.
    #[must_use]
    pub fn unpriced(self) -> Self {
        Candidate { is_priced: false, ..self }
    }
}

/// A TOML list of strings.
pub(crate) fn quoted_list<'a>(texts: impl IntoIterator<Item = &'a str>) -> String {
    let items: Vec<String> = texts.into_iter().map(quoted).collect();
    format!("[{}]", items.join(", "))
}

/// A length as a person writes it, to the centimetre.
pub(crate) fn metres(length_m: f64) -> String {
    let rounded = (length_m * 100.0).round() / 100.0;
    format!("{rounded} m")
}
