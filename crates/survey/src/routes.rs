//! The route graph: places joined by ways a cable can take, and the shortest way between any two.

use latchline_site::catalogue::Environment;
use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// A way between two places.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Route {
    /// One end: index of a place.
    pub from: usize,
    /// The other end.
    pub to: usize,
    /// Length along the way, in whole millimetres.
    pub length_mm: u64,
    /// Where it runs.
    pub environment: Environment,
    /// Whether mains cables share it without separation.
    pub beside_mains: bool,
    /// Whether it is decided that cables take it wherever it leads on.
    pub is_locked: bool,
}

/// Places joined by routes.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RouteGraph {
    /// Number of places.
    pub places: usize,
    /// The routes.
    pub routes: Vec<Route>,
    /// Routes at each place.
    at: Vec<Vec<usize>>,
}

/// A shortest way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Way {
    /// Length in whole millimetres.
    pub length_mm: u64,
    /// The worst of the environments that it passes.
    pub environment: Environment,
    /// Whether mains cables share some part of it.
    pub beside_mains: bool,
}

impl RouteGraph {
    /// A graph of so many places.
    pub fn new(places: usize, routes: Vec<Route>) -> Self {
        let mut at = vec![Vec::new(); places];
        for (index, route) in routes.iter().enumerate() {
            at[route.from].push(index);
            at[route.to].push(index);
        }
        RouteGraph { places, routes, at }
    }

    /// For each place the part of the graph in which it lies: the first place of that part.
    pub fn parts(&self) -> Vec<usize> {
        let mut part = vec![usize::MAX; self.places];
        for start in 0..self.places {
            let mut waiting = vec![start];
            while let Some(place) = waiting.pop() {
                if part[place] != usize::MAX {
                    continue;
                }
                part[place] = start;
                let ends = self.at[place].iter().map(|index| &self.routes[*index]);
                waiting.extend(ends.map(|route| route.from + route.to - place));
            }
        }
        part
    }

    /// Locks the routes between two places; whether there is one.
    pub fn lock(&mut self, one: usize, other: usize) -> bool {
        self.set_locked(one, other, true)
    }

    /// Takes the lock off the routes between two places.
    pub fn unlock(&mut self, one: usize, other: usize) {
        self.set_locked(one, other, false);
    }

    fn set_locked(&mut self, one: usize, other: usize, is_locked: bool) -> bool {
        let mut found = false;
        for route in &mut self.routes {
            if (route.from, route.to) == (one, other) || (route.to, route.from) == (one, other) {
                route.is_locked = is_locked;
                found = true;
            }
        }
        found
    }

    /// Shortest ways from one place to all (Dijkstra); `None` where there is none. Of ways of one
    /// length the one by the route written first is taken. A locked route counts nothing where ways are chosen, and its length
    /// where they are measured.
    pub fn ways_from(&self, start: usize) -> Vec<Option<Way>> {
        let mut ways: Vec<Option<Way>> = vec![None; self.places];
        let mut done = vec![false; self.places];
        let mut queue = BinaryHeap::new();
        let here = Way { length_mm: 0, environment: Environment::Indoors, beside_mains: false };
        if let Some(way) = ways.get_mut(start) {
            *way = Some(here);
            queue.push(Reverse((0u64, 0u64, start)));
        }
        let mut chosen_by = vec![(u64::MAX, u64::MAX); self.places];
        while let Some(Reverse((counted, length, place))) = queue.pop() {
            if std::mem::replace(&mut done[place], true) {
                continue;
            }
            let Some(so_far) = ways[place] else { continue };
            for &index in &self.at[place] {
                let route = &self.routes[index];
                let next = route.from + route.to - place;
                let total = length.saturating_add(route.length_mm);
                let counts = if route.is_locked { counted } else { counted.saturating_add(route.length_mm) };
                if next != start && (counts, total) < chosen_by[next] {
                    chosen_by[next] = (counts, total);
                    ways[next] = Some(Way {
                        length_mm: total,
                        environment: so_far.environment.max(route.environment),
                        beside_mains: so_far.beside_mains || route.beside_mains,
                    });
                    queue.push(Reverse((counts, total, next)));
                }
            }
        }
        ways
    }

    /// Places in the order in which somebody walks them from `start`: into each branch of the tree of
    /// shortest ways to its end before the next one, branches in the order given by `turn` (a key
    /// for each place; smaller first).
    pub fn walk(&self, start: usize, turn: &[u64]) -> Vec<usize> {
        let ways = self.ways_from(start);
        let mut children: Vec<Vec<usize>> = vec![Vec::new(); self.places];
        for (place, way) in ways.iter().enumerate() {
            let Some(way) = way else { continue };
            if place == start {
                continue;
            }
            let above = self.at[place].iter().find_map(|index| {
                let route = &self.routes[*index];
                let other = route.from + route.to - place;
                let before = ways[other]?;
                let joins = before.length_mm.saturating_add(route.length_mm) == way.length_mm;
                (joins && (route.length_mm > 0 || other < place || other == start)).then_some(other)
            });
            if let Some(above) = above {
                children[above].push(place);
            }
        }
        for list in &mut children {
            list.sort_by_key(|place| (turn.get(*place).copied().unwrap_or(0), *place));
        }
        let mut order = Vec::new();
        let mut pending = vec![start];
        let mut seen = vec![false; self.places];
        while let Some(place) = pending.pop() {
            if std::mem::replace(&mut seen[place], true) {
                continue;
            }
            order.push(place);
            pending.extend(children[place].iter().rev());
        }
        // Places joined by ways of no length may be missed by the tree; they follow.
        order.extend((0..self.places).filter(|place| ways[*place].is_some() && !seen[*place]));
        order
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn route(from: usize, to: usize, length_mm: u64) -> Route {
        Route {
            from,
            to,
            length_mm,
            environment: Environment::Indoors,
            beside_mains: false,
            is_locked: false,
        }
    }

    /// The example of Dijkstra's note of 1959 is not a graph with numbers; this is the six-place graph
    /// common in textbooks (from memory): the shortest way from 1 to 5 has length 20, by 1-3-6-5.
    #[test]
    fn the_textbook_graph_has_its_textbook_distances() {
        let routes = vec![
            route(0, 1, 7),
            route(0, 2, 9),
            route(0, 5, 14),
            route(1, 2, 10),
            route(1, 3, 15),
            route(2, 3, 11),
            route(2, 5, 2),
            route(3, 4, 6),
            route(4, 5, 9),
        ];
        let ways = RouteGraph::new(6, routes).ways_from(0);
        let lengths: Vec<u64> = ways.iter().map(|way| way.unwrap().length_mm).collect();
        assert_eq!(lengths, [0, 7, 9, 20, 20, 11]);
    }

    /// Two ways round a square: the longer one is taken once its route is locked, and has its own length.
    #[test]
    fn ways_take_a_locked_route_and_have_its_length() {
        let mut graph =
            RouteGraph::new(4, vec![route(0, 1, 5), route(1, 3, 5), route(0, 2, 6), route(2, 3, 6)]);
        let length = |graph: &RouteGraph| graph.ways_from(0)[3].unwrap().length_mm;
        assert_eq!(length(&graph), 10);
        assert!(graph.lock(3, 2));
        assert_eq!(length(&graph), 12);
        assert!(!graph.lock(0, 3));
    }

    #[test]
    fn a_walk_ends_one_branch_before_the_next() {
        let graph = RouteGraph::new(5, vec![route(0, 1, 3), route(0, 2, 3), route(1, 3, 3), route(2, 4, 3)]);
        assert_eq!(graph.walk(0, &[0; 5]), [0, 1, 3, 2, 4]);
        assert_eq!(graph.walk(0, &[0, 1, 0, 0, 0]), [0, 2, 4, 1, 3]);
        assert!(RouteGraph::new(2, vec![]).ways_from(0)[1].is_none());
    }
}
