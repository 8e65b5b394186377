//! One thing that is wrong, or worth knowing, as typed data.

use crate::{Both, Code, ElementId, Figure, OperatingState, Origin, Remedy, Severity, Unit};

/// A typed argument of a finding's message.
#[derive(Debug, Clone, PartialEq)]
pub enum Argument {
    /// Text as the user or a catalogue wrote it.
    Text(String),
    /// Several texts, in order (the valid names, nearest first).
    Texts(Vec<String>),
    /// Words of our own, said in the reader's language.
    Words(Both),
    /// Several of them, in order.
    ManyWords(Vec<Both>),
    /// An element.
    Element(ElementId),
    /// Several elements, in order.
    Elements(Vec<ElementId>),
    /// A number with its unit.
    Figure(Figure),
}

macro_rules! argument_from {
    ($($from:ty => |$value:ident| $to:expr;)*) => {$(
        impl From<$from> for Argument {
            fn from($value: $from) -> Self { $to }
        }
    )*};
}
argument_from! {
    &str => |text| Argument::Text(text.to_string());
    String => |text| Argument::Text(text);
    Vec<String> => |texts| Argument::Texts(texts);
    Both => |words| Argument::Words(words);
    Vec<Both> => |words| Argument::ManyWords(words);
    ElementId => |element| Argument::Element(element);
    &ElementId => |element| Argument::Element(element.clone());
    Vec<ElementId> => |elements| Argument::Elements(elements);
    Figure => |figure| Argument::Figure(figure);
    usize => |count| Argument::Figure(Figure::count(count));
}

/// How far the data under a finding can be relied on.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum DataGrade {
    /// Everything is from a datasheet, a standard, a measurement or the user's own statement.
    #[default]
    Known,
    /// It rests on assumed values: which ones, as "model key" or "cable key".
    Assumed(Vec<String>),
}

/// A further place that belongs to a finding.
#[derive(Debug, Clone, PartialEq)]
pub struct Related {
    /// Where.
    pub origin: Origin,
    /// What the place is to the finding: "first-defined-here", "limit-from", "cable", ...
    pub role: &'static str,
}

/// The user's word that a finding is known and stays.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Acceptance {
    /// Why.
    pub reason: String,
    /// When, as the user wrote it (YYYY-MM-DD).
    pub date: String,
}

/// One thing that is wrong, or worth knowing. Data only: each output format words it itself.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Its kind.
    pub code: Code,
    /// How much it matters.
    pub severity: Severity,
    /// The element it is about.
    pub element: Option<ElementId>,
    /// The operating state in which it occurs.
    pub state: Option<OperatingState>,
    /// The figure found.
    pub value: Option<Figure>,
    /// The figure it is held against.
    pub limit: Option<Figure>,
    /// Where the user can see or change it.
    pub origin: Origin,
    /// Further places.
    pub related: Vec<Related>,
    /// How far the data under it can be relied on.
    pub grade: DataGrade,
    /// Named arguments of its message.
    pub arguments: Vec<(&'static str, Argument)>,
    /// Changes that were computed and verified to mend it, best first.
    pub remedies: Vec<Remedy>,
    /// Set when the user has accepted it.
    pub accepted: Option<Acceptance>,
}

impl Finding {
    /// Whether somebody has to do something about it: an error or a warning that is not accepted.
    pub fn is_to_be_mended(&self) -> bool {
        self.accepted.is_none() && self.severity > Severity::Advice
    }

    /// A finding of this kind at this place; the rest is added by the methods below.
    pub fn new(code: Code, severity: Severity, origin: impl Into<Origin>) -> Self {
        Self {
            code,
            severity,
            element: None,
            state: None,
            value: None,
            limit: None,
            origin: origin.into(),
            related: Vec::new(),
            grade: DataGrade::Known,
            arguments: Vec::new(),
            remedies: Vec::new(),
            accepted: None,
        }
    }

    /// About this element.
    #[must_use]
    pub fn about(mut self, element: impl Into<ElementId>) -> Self {
        self.element = Some(element.into());
        self
    }

    /// In this operating state.
    #[must_use]
    pub fn in_state(mut self, state: impl Into<OperatingState>) -> Self {
        self.state = Some(state.into());
        self
    }

    /// With this figure against this limit, in one unit.
    #[must_use]
    pub fn figures(mut self, value: f64, limit: f64, unit: Unit) -> Self {
        self.value = Some(Figure::new(value, unit));
        self.limit = Some(Figure::new(limit, unit));
        self
    }

    /// With a named argument.
    #[must_use]
    pub fn with(mut self, name: &'static str, argument: impl Into<Argument>) -> Self {
        self.arguments.push((name, argument.into()));
        self
    }

    /// With a further place, unless there is nothing to point at.
    #[must_use]
    pub fn also_at(mut self, role: &'static str, origin: impl Into<Origin>) -> Self {
        let origin = origin.into();
        if origin != Origin::None {
            self.related.push(Related { origin, role });
        }
        self
    }

    /// With the grade of its data.
    #[must_use]
    pub fn graded(mut self, grade: DataGrade) -> Self {
        self.grade = grade;
        self
    }

    /// The argument with this name.
    pub fn argument(&self, name: &str) -> Option<&Argument> {
        self.arguments.iter().find(|(key, _)| *key == name).map(|(_, argument)| argument)
    }
}
