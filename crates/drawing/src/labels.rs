//! Placing labels so that nothing covers anything.
//!
//! Point and line feature labelling as Christensen, Marks and Shieber describe it ("An empirical
//! study of algorithms for point-feature label placement", ACM Transactions on Graphics 14(3),
//! 1995): every label has a list of candidate positions with a cost each; candidates that touch a
//! fixed obstacle are struck out beforehand; candidates of different labels that overlap are in
//! conflict. A connected part of the conflict graph that is small is solved exactly by branch and
//! bound, a large one by simulated annealing with their schedule (first temperature such that a
//! change that costs one conflict is accepted with probability 2/3, lowered by a tenth after each
//! stage, at most fifty stages). The seed is fixed, so the same drawing comes out again.
//!
//! What is returned never overlaps: a label that is still in conflict at the end gets no place,
//! and the caller says elsewhere what it would have said.

use latchline_scene::Area;
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};
use std::collections::BTreeMap;

/// A possible place of a label.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Candidate {
    /// The box that it would take.
    pub area: Area,
    /// A further box that it would take: that of its leader.
    pub leader: Option<Area>,
    /// How unwelcome it is; a conflict costs far more.
    pub cost: f64,
}

impl Candidate {
    fn overlaps(&self, other: &Self) -> bool {
        let boxes = |candidate: &Self| [Some(candidate.area), candidate.leader];
        boxes(self).into_iter().flatten().any(|a| boxes(other).into_iter().flatten().any(|b| a.overlaps(&b)))
    }

    fn cells(&self) -> impl Iterator<Item = (i64, i64)> + use<> {
        cells_of(&self.area).chain(self.leader.iter().flat_map(cells_of).collect::<Vec<_>>())
    }
}

/// What must stay free of labels.
#[derive(Debug, Clone, Default)]
pub struct Obstacles {
    areas: Vec<Area>,
    cells: BTreeMap<(i64, i64), Vec<u32>>,
}

/// Edge of a cell of the search grid in millimetres.
const CELL_MM: f64 = 16.0;

fn cells_of(area: &Area) -> impl Iterator<Item = (i64, i64)> + use<> {
    let index = |value: f64| (value / CELL_MM).floor() as i64;
    let (left, right) = (index(area.x), index(area.right()));
    let (top, bottom) = (index(area.y), index(area.bottom()));
    (left..=right).flat_map(move |column| (top..=bottom).map(move |row| (column, row)))
}

impl Obstacles {
    /// Adds a box.
    pub fn add(&mut self, area: Area) {
        let number = self.areas.len() as u32;
        for cell in cells_of(&area) {
            self.cells.entry(cell).or_default().push(number);
        }
        self.areas.push(area);
    }

    /// Whether a box touches none of them.
    pub fn is_free(&self, area: &Area) -> bool {
        cells_of(area).all(|cell| {
            let numbers = self.cells.get(&cell).map_or(&[][..], Vec::as_slice);
            numbers.iter().all(|number| !self.areas[*number as usize].overlaps(area))
        })
    }
}

/// What a conflict costs, against which the costs of candidates are small.
const CONFLICT: f64 = 100.0;
/// What it costs to leave a label out, in the exact search.
const LEFT_OUT: f64 = 60.0;
/// Largest number of combinations that are searched exactly.
const EXACT_COMBINATIONS: f64 = 50_000.0;

/// Chooses one candidate for each label, or none; the chosen boxes do not overlap.
pub fn place(labels: &[Vec<Candidate>], seed: u64) -> Vec<Option<usize>> {
    let graph = Conflicts::new(labels);
    let mut chosen: Vec<Option<usize>> = vec![None; labels.len()];
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    for part in graph.parts(labels.len()) {
        let combinations: f64 = part.iter().map(|label| labels[*label].len() as f64 + 1.0).product();
        if combinations <= EXACT_COMBINATIONS {
            exact(labels, &graph, &part, &mut chosen);
        } else {
            anneal(labels, &graph, &part, &mut chosen, &mut random);
        }
    }
    chosen
}

/// For each candidate of each label the candidates of other labels that it overlaps.
struct Conflicts {
    of: Vec<Vec<Vec<(u32, u32)>>>,
}

impl Conflicts {
    fn new(labels: &[Vec<Candidate>]) -> Self {
        let mut cells: BTreeMap<(i64, i64), Vec<(u32, u32)>> = BTreeMap::new();
        let mut of: Vec<Vec<Vec<(u32, u32)>>> =
            labels.iter().map(|candidates| vec![Vec::new(); candidates.len()]).collect();
        for (label, candidates) in labels.iter().enumerate() {
            for (number, candidate) in candidates.iter().enumerate() {
                let mut met: Vec<(u32, u32)> = Vec::new();
                for cell in candidate.cells() {
                    let here = cells.entry(cell).or_default();
                    met.extend(here.iter().copied().filter(|(other, place)| {
                        *other as usize != label
                            && labels[*other as usize][*place as usize].overlaps(candidate)
                    }));
                    here.push((label as u32, number as u32));
                }
                met.sort_unstable();
                met.dedup();
                for (other, place) in &met {
                    of[*other as usize][*place as usize].push((label as u32, number as u32));
                }
                of[label][number].extend(met);
            }
        }
        Self { of }
    }

    /// Connected parts of the graph, in ascending order of their first label.
    fn parts(&self, labels: usize) -> Vec<Vec<usize>> {
        let mut part_of = vec![usize::MAX; labels];
        let mut parts = Vec::new();
        for start in 0..labels {
            if part_of[start] != usize::MAX {
                continue;
            }
            let mut part = vec![start];
            part_of[start] = parts.len();
            let mut next = 0;
            while next < part.len() {
                for (other, _) in self.of[part[next]].iter().flatten() {
                    let other = *other as usize;
                    if part_of[other] == usize::MAX {
                        part_of[other] = parts.len();
                        part.push(other);
                    }
                }
                next += 1;
            }
            part.sort_unstable();
            parts.push(part);
        }
        parts
    }

    fn clash(&self, label: usize, candidate: usize, chosen: &[Option<usize>]) -> usize {
        let others = &self.of[label][candidate];
        others.iter().filter(|(other, place)| chosen[*other as usize] == Some(*place as usize)).count()
    }
}

/// Branch and bound over every combination: the cheapest one without conflict.
fn exact(labels: &[Vec<Candidate>], graph: &Conflicts, part: &[usize], chosen: &mut [Option<usize>]) {
    // Least cost that the labels from each place on can come to.
    let mut least = vec![0.0; part.len() + 1];
    for (place, label) in part.iter().enumerate().rev() {
        let cheapest = labels[*label].iter().map(|candidate| candidate.cost).fold(LEFT_OUT, f64::min);
        least[place] = least[place + 1] + cheapest;
    }
    struct Search<'s> {
        labels: &'s [Vec<Candidate>],
        graph: &'s Conflicts,
        part: &'s [usize],
        least: Vec<f64>,
        best: Option<(f64, Vec<Option<usize>>)>,
    }
    impl Search<'_> {
        fn go(&mut self, depth: usize, cost: f64, chosen: &mut [Option<usize>]) {
            if self.best.as_ref().is_some_and(|(best, _)| cost + self.least[depth] >= *best) {
                return;
            }
            let Some(&label) = self.part.get(depth) else {
                self.best = Some((cost, self.part.iter().map(|label| chosen[*label]).collect()));
                return;
            };
            let mut order: Vec<usize> = (0..self.labels[label].len()).collect();
            order.sort_by(|a, b| self.labels[label][*a].cost.total_cmp(&self.labels[label][*b].cost));
            for candidate in order {
                if self.graph.clash(label, candidate, chosen) == 0 {
                    chosen[label] = Some(candidate);
                    self.go(depth + 1, cost + self.labels[label][candidate].cost, chosen);
                    chosen[label] = None;
                }
            }
            self.go(depth + 1, cost + LEFT_OUT, chosen);
        }
    }
    let mut search = Search { labels, graph, part, least, best: None };
    search.go(0, 0.0, chosen);
    if let Some((_, places)) = search.best {
        for (label, place) in part.iter().zip(places) {
            chosen[*label] = place;
        }
    }
}

fn anneal(
    labels: &[Vec<Candidate>],
    graph: &Conflicts,
    part: &[usize],
    chosen: &mut [Option<usize>],
    random: &mut ChaCha8Rng,
) {
    let movable: Vec<usize> = part.iter().copied().filter(|label| !labels[*label].is_empty()).collect();
    if movable.is_empty() {
        return;
    }
    for label in &movable {
        chosen[*label] = Some(random.next_u32() as usize % labels[*label].len());
    }
    let cost_of = |label: usize, candidate: usize, chosen: &[Option<usize>]| {
        CONFLICT * graph.clash(label, candidate, chosen) as f64 + labels[label][candidate].cost
    };
    let mut temperature = CONFLICT / 3f64.ln();
    for _stage in 0..50 {
        let mut changed = 0;
        for _move in 0..20 * movable.len() {
            let label = movable[random.next_u32() as usize % movable.len()];
            let next = random.next_u32() as usize % labels[label].len();
            let Some(now) = chosen[label] else { continue };
            if next == now {
                continue;
            }
            let rise = cost_of(label, next, chosen) - cost_of(label, now, chosen);
            let chance = f64::from(random.next_u32()) / f64::from(u32::MAX);
            if rise <= 0.0 || chance < (-rise / temperature).exp() {
                chosen[label] = Some(next);
                changed += 1;
            }
            if changed > 5 * movable.len() {
                break;
            }
        }
        if changed == 0 {
            break;
        }
        temperature *= 0.9;
    }
    repair(&movable, graph, chosen, &cost_of);
}

/// Cost of a candidate of a label beside the chosen ones.
type CostOf<'c> = dyn Fn(usize, usize, &[Option<usize>]) -> f64 + 'c;

/// Ends with the best move for each label in turn, then drops what is still in conflict and takes
/// back what has become free.
fn repair(movable: &[usize], graph: &Conflicts, chosen: &mut [Option<usize>], cost_of: &CostOf<'_>) {
    let best = |label: usize, chosen: &[Option<usize>]| {
        (0..graph.of[label].len())
            .min_by(|a, b| cost_of(label, *a, chosen).total_cmp(&cost_of(label, *b, chosen)))
    };
    for _pass in 0..8 {
        let before = chosen.to_vec();
        for label in movable {
            chosen[*label] = best(*label, chosen);
        }
        if before == chosen {
            break;
        }
    }
    loop {
        let clashes = |label: &usize| chosen[*label].map_or(0, |place| graph.clash(*label, place, chosen));
        let Some(worst) = movable.iter().max_by_key(|label| (clashes(label), **label)) else { return };
        if clashes(worst) == 0 {
            break;
        }
        let worst = *worst;
        chosen[worst] = None;
    }
    for label in movable {
        if chosen[*label].is_none() {
            chosen[*label] = best(*label, chosen).filter(|place| graph.clash(*label, *place, chosen) == 0);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn candidate(x: f64, y: f64, cost: f64) -> Candidate {
        Candidate { area: Area::new(x, y, 10.0, 3.0), leader: None, cost }
    }

    #[test]
    fn the_cheapest_free_combination_is_taken() {
        // Both want the middle; one of them has a second place that is cheaper than the other's.
        let labels = vec![
            vec![candidate(0.0, 0.0, 0.0), candidate(50.0, 0.0, 2.0)],
            vec![candidate(5.0, 0.0, 0.0), candidate(80.0, 0.0, 1.0)],
        ];
        assert_eq!(place(&labels, 1), [Some(0), Some(1)]);
    }

    #[test]
    fn a_label_without_room_is_left_out() {
        let labels = vec![vec![candidate(0.0, 0.0, 0.0)], vec![candidate(1.0, 1.0, 0.0)], vec![]];
        let chosen = place(&labels, 1);
        assert_eq!(chosen.iter().flatten().count(), 1);
        assert_eq!(chosen[2], None);
    }

    #[test]
    fn obstacles_are_found_across_cells() {
        let mut obstacles = Obstacles::default();
        obstacles.add(Area::new(-20.0, 10.0, 200.0, 0.5));
        assert!(!obstacles.is_free(&Area::new(100.0, 9.0, 5.0, 3.0)));
        assert!(obstacles.is_free(&Area::new(100.0, 10.5, 5.0, 3.0)));
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(64))]
        #[test]
        fn chosen_boxes_never_overlap(points in prop::collection::vec((0.0..90.0f64, 0.0..40.0f64), 1..60)) {
            // The eight positions of the study around a point, best first.
            let labels: Vec<Vec<Candidate>> = points.iter().map(|(x, y)| {
                [(0.0, -3.0), (-10.0, -3.0), (0.0, 0.0), (-10.0, 0.0), (1.0, -1.5), (-11.0, -1.5), (-5.0, -4.0), (-5.0, 1.0)]
                    .iter().enumerate().map(|(rank, (dx, dy))| candidate(x + dx, y + dy, rank as f64)).collect()
            }).collect();
            let chosen = place(&labels, 7);
            let areas: Vec<Area> = chosen.iter().zip(&labels)
                .filter_map(|(place, candidates)| place.map(|place| candidates[place].area)).collect();
            for (i, a) in areas.iter().enumerate() {
                for b in &areas[i + 1..] {
                    prop_assert!(!a.overlaps(b));
                }
            }
            prop_assert_eq!(chosen, place(&labels, 7));
        }
    }
}
