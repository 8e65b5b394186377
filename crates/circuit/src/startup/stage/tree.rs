//! Linear solution on the tree: leaves to root, and back.

use super::Stage;

impl Stage {
    /// Leaf-to-root elimination of the lines in `s` and `b`.
    pub(super) fn eliminate(&mut self) {
        let n = self.parent.len();
        let (s, b) = (&mut self.s[..n], &mut self.b[..n]);
        let (parent, r) = (&self.parent[..n], &self.resistance_ohm[..n]);
        let inverse = &mut self.inverse[..n];
        if self.ports.is_empty() {
            for k in (1..n).rev() {
                let pivot = 1.0 / (1.0 + r[k] * s[k]);
                inverse[k] = pivot;
                let p = parent[k] as usize;
                s[p] += s[k] * pivot;
                b[p] += b[k] * pivot;
            }
            return;
        }
        for k in (1..n).rev() {
            let p = parent[k] as usize;
            let index = self.port_of[k] as usize;
            if index > 0 && (!self.ports[index - 1].closed || self.ports[index - 1].limiting) {
                let port = &self.ports[index - 1];
                b[p] += if port.closed { port.limit_a } else { 0.0 };
                continue;
            }
            let pivot = 1.0 / (1.0 + r[k] * s[k]);
            inverse[k] = pivot;
            s[p] += s[k] * pivot;
            b[p] += b[k] * pivot;
        }
    }

    /// Root-to-leaf voltages into `next_v`. With `clamp`, voltages are kept in the range that the
    /// solution must lie in; false if that changed one.
    pub(super) fn back_substitute(&mut self, clamp: bool) -> bool {
        let n = self.parent.len();
        let (slope, intercept) = self.supply_line;
        let v = &mut self.next_v[..n];
        let (s, b) = (&self.s[..n], &self.b[..n]);
        let (parent, r, inverse) = (&self.parent[..n], &self.resistance_ohm[..n], &self.inverse[..n]);
        v[0] = (intercept - b[0]) / (s[0] - slope);
        if self.ports.is_empty() {
            for k in 1..n {
                v[k] = (v[parent[k] as usize] - r[k] * b[k]) * inverse[k];
            }
        } else {
            for k in 1..n {
                let index = self.port_of[k] as usize;
                v[k] = if index > 0 && (!self.ports[index - 1].closed || self.ports[index - 1].limiting) {
                    let port = &self.ports[index - 1];
                    ((if port.closed { port.limit_a } else { 0.0 }) - b[k]) / s[k]
                } else {
                    (v[parent[k] as usize] - r[k] * b[k]) * inverse[k]
                };
            }
        }
        if !clamp {
            return true;
        }
        let highest_v = self.highest_v;
        if v.iter().fold(true, |inside, &x| inside & (x >= -1.0) & (x <= highest_v)) {
            return true;
        }
        for x in v.iter_mut() {
            *x = if x.is_nan() { 0.0 } else { x.clamp(-1.0, highest_v) };
        }
        false
    }
}
