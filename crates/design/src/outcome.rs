//! A design that passes, and the texts that it is checked with.

use crate::plan::Plan;
use latchline_assess::Assessment;
use latchline_finding::{Both, Language, Money, Sources};
use latchline_site::LoadedCatalogues;
use latchline_site::bill::Bill;
use latchline_site::model::Site;

/// Texts that a design is checked with.
#[derive(Clone, Copy)]
pub struct Texts<'a> {
    /// All texts.
    pub sources: &'a Sources,
    /// The catalogues, read from them.
    pub catalogues: &'a LoadedCatalogues,
    /// The language of the comments in the site file.
    pub language: Language,
}

/// A design that passes.
#[derive(Debug, Clone, PartialEq)]
pub struct Design {
    /// The site file.
    pub text: String,
    /// The site.
    pub site: Site,
    /// Its assessment.
    pub assessment: Assessment,
    /// What must be bought and pulled.
    pub bill: Bill,
    /// Material.
    pub material: Money,
    /// Labour in minutes.
    pub minutes: f64,
    /// Material and labour.
    pub cost: Money,
    /// No design of the declared space costs less.
    pub lower_bound: Money,
    /// Family.
    pub family: String,
    /// The declared space, line by line.
    pub space: Vec<Both>,
    /// What a person must know that the price does not show.
    pub remarks: Vec<Both>,
    /// Places of its supplies: indices into the survey's.
    pub supply_places: Vec<usize>,
    /// What of its cost no plan changes: stations, locks and their cables.
    pub fixed: Money,
    /// The most dwellings that one broken joint of a run silences.
    pub largest_group: usize,
    /// The one cable of its bus, where the survey asks for one type.
    pub(crate) one_cable: Option<String>,
    /// Its plans, one for each bus.
    pub(crate) plans: Vec<Plan>,
    /// Walking orders tried.
    pub orders: usize,
    /// Plans that were assessed before one passed.
    pub assessed: usize,
    /// What each limit of the policy costs.
    pub binding: Vec<Binding>,
    /// Cheapest box of the family, for judging the gap.
    pub cheapest_box: Money,
}

impl Design {
    /// Cost above the bound as a fraction of the bound.
    pub fn gap(&self) -> f64 {
        if self.lower_bound <= Money::ZERO {
            return 0.0;
        }
        (self.cost.as_units() / self.lower_bound.as_units() - 1.0).max(0.0)
    }

    /// What of its cost a plan can change: all but stations, locks and their cables.
    pub fn decidable(&self) -> Money {
        (self.cost - self.fixed).max(Money::ZERO)
    }

    /// What could be saved at most, as a fraction of the whole cost.
    pub fn saved_at_most(&self) -> f64 {
        share(self.cost - self.lower_bound, self.cost)
    }

    /// What could be saved at most, as a fraction of what a plan can change.
    pub fn saved_of_decidable(&self) -> f64 {
        share(self.cost - self.lower_bound, self.decidable())
    }
}

/// A part of a whole as a fraction from 0 to 1.
fn share(part: Money, whole: Money) -> f64 {
    if whole <= Money::ZERO { 0.0 } else { (part.as_units() / whole.as_units()).clamp(0.0, 1.0) }
}

/// What a limit costs.
#[derive(Debug, Clone, PartialEq)]
pub struct Binding {
    /// The limit, in words with its value.
    pub limit: Both,
    /// By how much the lower bound falls without it.
    pub price: Money,
}
