//! What the outcomes of a reading would mean.
//!
//! Where on its scale one cause is likelier than any other there is an outcome of its own: the probability that the reading falls there, and the causes
//! with the probability that each would then have.

use crate::gauss::normal;
use crate::quantity::Quantity;

/// Outcomes that are told apart at most; more are joined, the least probable first.
const MOST_OUTCOMES: usize = 5;
/// An outcome less probable than this is no outcome of its own.
const LEAST_OUTCOME: f64 = 0.02;
/// Causes below this share of an outcome are not named with it.
pub(super) const LEAST_NAMED: f64 = 0.03;
/// Where the scale is cut, in deviations of every component.
const CUTS: [f64; 7] = [-3.5, -1.8, -0.7, 0.0, 0.7, 1.8, 3.5];
/// Cuts nearer to each other than this share of the narrowest deviation are one.
const SAME_CUT: f64 = 0.05;
/// Nothing of a component lies farther from its mean, in deviations.
const FARTHEST: f64 = 6.0;
/// A component below this share makes no cuts of its own.
const LEAST_CUTTING: f64 = 0.001;
/// At the ends of the scale an outcome reaches as far as all but this share of it.
const BEYOND: f64 = 0.02;
/// Halvings by which a share of an outcome is found.
const HALVINGS: usize = 30;

/// A cause that is left, or one of its sizes: its share and what it predicts.
pub(super) struct Component {
    /// Its probability among those that are left.
    pub share: f64,
    /// What it predicts, on the scale of the quantity.
    pub mean: f64,
    /// The deviation of that.
    pub deviation: f64,
    /// Index into the ranking.
    pub cause: usize,
}

/// What a reading would mean.
#[derive(Debug, Clone, PartialEq)]
pub struct Meaning {
    /// Between these, in the SI unit.
    pub low: f64,
    /// Upper end.
    pub high: f64,
    /// The reading that stands for it: as probable below as above, within the outcome.
    pub middle: f64,
    /// Probability of it.
    pub probability: f64,
    /// Causes that predict it, the most probable first: indices into [`crate::Ranking::causes`].
    pub causes: Vec<usize>,
    /// The probability that each of them would then have.
    pub shares: Vec<f64>,
}

/// A stretch of the scale.
struct Stretch {
    from: f64,
    to: f64,
    /// Probability that it is each of the causes and the reading falls there.
    masses: Vec<f64>,
}

impl Stretch {
    fn mass(&self) -> f64 {
        self.masses.iter().sum()
    }

    fn leader(&self) -> usize {
        let order = |a: &usize, b: &usize| self.masses[*a].total_cmp(&self.masses[*b]).then(b.cmp(a));
        (0..self.masses.len()).max_by(order).unwrap_or(0)
    }

    fn join(&mut self, other: &Stretch) {
        self.from = self.from.min(other.from);
        self.to = self.to.max(other.to);
        self.masses.iter_mut().zip(&other.masses).for_each(|(mass, more)| *mass += more);
    }
}

/// What all causes together predict of a reading.
struct Mixture<'c> {
    components: &'c [Component],
    /// Every cause once, in the order of the components.
    causes: Vec<usize>,
    /// Of every component its place among them.
    cause_of: Vec<usize>,
}

impl<'c> Mixture<'c> {
    fn new(components: &'c [Component]) -> Self {
        let mut causes: Vec<usize> = Vec::new();
        let mut place_of = |cause: usize| {
            causes.iter().position(|known| *known == cause).unwrap_or_else(|| {
                causes.push(cause);
                causes.len() - 1
            })
        };
        let cause_of = components.iter().map(|one| place_of(one.cause)).collect();
        Mixture { components, causes, cause_of }
    }

    /// Probability of every cause with a reading below a place of the scale.
    fn below(&self, at: f64) -> Vec<f64> {
        let mut masses = vec![0.0; self.causes.len()];
        for (one, cause) in self.components.iter().zip(&self.cause_of) {
            let deviations = (at - one.mean) / one.deviation;
            if deviations > FARTHEST {
                masses[*cause] += one.share;
            } else if deviations > -FARTHEST {
                masses[*cause] += one.share * normal(deviations);
            }
        }
        masses
    }

    /// Where between two places so much of what lies between them is below, by halving.
    fn quantile(&self, from: f64, to: f64, share: f64) -> f64 {
        let below = |at: f64| self.below(at).iter().sum::<f64>();
        let wanted = below(from) + share * (below(to) - below(from));
        let (mut low, mut high) = (from, to);
        for _ in 0..HALVINGS {
            let middle = low.midpoint(high);
            if below(middle) < wanted { low = middle } else { high = middle }
        }
        low.midpoint(high)
    }
}

/// The outcomes of a reading, from the lowest; one alone if it would change nothing about which cause leads.
pub(super) fn meanings(quantity: &Quantity, components: &[Component]) -> Vec<Meaning> {
    let all = Mixture::new(components);
    let cutting = components.iter().filter(|one| one.share >= LEAST_CUTTING);
    let narrowest = cutting.clone().map(|one| one.deviation).fold(f64::INFINITY, f64::min);
    let mut cuts: Vec<f64> =
        cutting.flat_map(|one| CUTS.map(|times| one.mean + times * one.deviation)).collect();
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|next, kept| *next - *kept <= SAME_CUT * narrowest);
    let mut stretches: Vec<Stretch> = Vec::new();
    let mut below = cuts.first().map_or_else(Vec::new, |at| all.below(*at));
    for pair in cuts.windows(2) {
        let up_to = all.below(pair[1]);
        let masses = up_to.iter().zip(&below).map(|(above, below)| (above - below).max(0.0)).collect();
        below = up_to;
        let next = Stretch { from: pair[0], to: pair[1], masses };
        match stretches.last_mut() {
            // Where next to nothing falls there is nothing to lead.
            Some(last) if last.leader() == next.leader() || next.mass() < 1e-6 => last.join(&next),
            _ => stretches.push(next),
        }
    }
    while stretches.len() > 1 {
        let least = (0..stretches.len()).min_by(|a, b| stretches[*a].mass().total_cmp(&stretches[*b].mass()));
        let Some(least) =
            least.filter(|place| stretches.len() > MOST_OUTCOMES || stretches[*place].mass() < LEAST_OUTCOME)
        else {
            break;
        };
        let gone = stretches.remove(least);
        // It joins the neighbour that says most nearly the same.
        let alike = |place: usize| -> f64 {
            let other = &stretches[place];
            let share = |stretch: &Stretch, at: usize| stretch.masses[at] / stretch.mass().max(1e-300);
            (0..gone.masses.len()).map(|at| share(&gone, at).min(share(other, at))).sum()
        };
        let into = match (least.checked_sub(1), least < stretches.len()) {
            (Some(before), true) if alike(before) >= alike(least) => before,
            (Some(before), false) => before,
            _ => least,
        };
        stretches[into].join(&gone);
        join_alike(&mut stretches);
    }
    if stretches.is_empty() {
        return Vec::new();
    }
    let never_below = components.iter().all(|one| one.mean >= 0.0);
    let (first, last) = (stretches[0].from, stretches[stretches.len() - 1].to);
    let of = |stretch: &Stretch| {
        let mass = stretch.mass();
        let mut named: Vec<(usize, f64)> = stretch
            .masses
            .iter()
            .zip(&all.causes)
            .map(|(part, cause)| (*cause, part / mass.max(1e-300)))
            .filter(|(_, share)| *share >= LEAST_NAMED)
            .collect();
        named.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        let shown = |value: f64| {
            let value = quantity.unscale(value);
            if never_below { value.max(0.0) } else { value }
        };
        let (mut low, mut high) = (stretch.from, stretch.to);
        if low == first {
            low = all.quantile(stretch.from, stretch.to, BEYOND);
        }
        if high == last {
            high = all.quantile(stretch.from, stretch.to, 1.0 - BEYOND);
        }
        let middle = shown(all.quantile(low, high, 0.5));
        let (causes, shares) = named.iter().copied().unzip();
        Meaning { low: shown(low), high: shown(high), middle, probability: mass, causes, shares }
    };
    stretches.iter().map(of).collect()
}

fn join_alike(stretches: &mut Vec<Stretch>) {
    let mut place = 1;
    while place < stretches.len() {
        if stretches[place].leader() == stretches[place - 1].leader() {
            let gone = stretches.remove(place);
            stretches[place - 1].join(&gone);
        } else {
            place += 1;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use latchline_finding::StateKind;
    use latchline_network::readings::ReadingPlace;

    fn voltage() -> Quantity {
        Quantity::Voltage { at: ReadingPlace::Supply(0), state: StateKind::StandbyDay.into() }
    }

    /// Two causes alike but for their mean: by symmetry the outcomes part half way, where both densities are the same.
    #[test]
    fn two_causes_part_where_their_densities_cross() {
        let one = |share, mean, cause| Component { share, mean, deviation: 1.0, cause };
        let found = meanings(&voltage(), &[one(0.5, 20.0, 0), one(0.5, 26.0, 1)]);
        assert_eq!(found.len(), 2);
        assert!((found[0].high - 23.0).abs() < 0.6 && found[0].high == found[1].low, "{found:?}");
        assert!((found[0].probability - 0.5).abs() < 0.01);
        assert_eq!((found[0].causes[0], found[1].causes[0]), (0, 1));
        assert!(found[0].shares[0] > 0.99);
    }

    /// A cause of two sizes, of which nothing lies between 20 and 30: what stands for the outcome is one of them, not the middle of the band.
    #[test]
    fn what_stands_for_an_outcome_is_a_reading_that_is_to_be_expected() {
        let one = |share, mean| Component { share, mean, deviation: 0.2, cause: 0 };
        let found = meanings(&voltage(), &[one(0.2, 20.0), one(0.8, 30.0)]);
        assert_eq!(found.len(), 1);
        assert!((found[0].middle - 30.0).abs() < 0.3, "{found:?}");
        assert!(found[0].low < 20.0 && found[0].high > 30.0 && found[0].high < 31.0, "{found:?}");
    }

    #[test]
    fn causes_that_predict_the_same_have_one_outcome() {
        let one = |share, cause| Component { share, mean: 40.0, deviation: 0.5, cause };
        let found = meanings(&voltage(), &[one(0.7, 0), one(0.3, 1)]);
        assert_eq!(found.len(), 1);
        assert!((found[0].shares[0] - 0.7).abs() < 1e-9 && (found[0].probability - 1.0).abs() < 1e-3);
    }
}
