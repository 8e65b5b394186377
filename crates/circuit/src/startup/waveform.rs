//! Samples of chosen nodes for a plot, thinned with their extremes kept.

/// Voltage of one node over time.
#[derive(Debug, Clone, PartialEq)]
pub struct Waveform {
    /// The node.
    pub node: usize,
    /// Times, s, not falling.
    pub time_s: Vec<f64>,
    /// Bus voltage at those times, V.
    pub voltage_v: Vec<f64>,
}

/// Collects samples and keeps their number bounded.
pub(super) struct Recorder {
    waveforms: Vec<Waveform>,
    most_points: usize,
}

impl Recorder {
    /// Records `nodes`, each with at most about `most_points` samples in the end.
    pub fn new(nodes: &[usize], most_points: usize) -> Self {
        let waveforms =
            nodes.iter().map(|&node| Waveform { node, time_s: Vec::new(), voltage_v: Vec::new() }).collect();
        Self { waveforms, most_points: most_points.max(16) }
    }

    /// Adds the voltages at one instant.
    pub fn sample(&mut self, time_s: f64, voltage_v: &[f64]) {
        for w in &mut self.waveforms {
            w.time_s.push(time_s);
            w.voltage_v.push(voltage_v[w.node]);
            // Thin only when four times too long, to a length at which detail is not yet lost.
            if w.time_s.len() >= 8 * self.most_points {
                thin(w, 4 * self.most_points);
            }
        }
    }

    /// The thinned waveforms.
    pub fn finish(mut self) -> Vec<Waveform> {
        for w in &mut self.waveforms {
            thin(w, self.most_points);
        }
        self.waveforms
    }
}

/// Keeps the first, lowest, highest and last sample of equal time buckets, so that no extreme is
/// lost.
fn thin(w: &mut Waveform, most_points: usize) {
    let length = w.time_s.len();
    if length <= most_points {
        return;
    }
    let buckets = (most_points / 4).max(1);
    let start = w.time_s[0];
    let span = w.time_s[length - 1] - start;
    let bucket = |t: f64| {
        if span > 0.0 { (((t - start) / span * buckets as f64) as usize).min(buckets - 1) } else { 0 }
    };
    let mut kept = Vec::with_capacity(most_points);
    let mut first = 0;
    while first < length {
        let this = bucket(w.time_s[first]);
        let mut last = first;
        let (mut low, mut high) = (first, first);
        while last + 1 < length && bucket(w.time_s[last + 1]) == this {
            last += 1;
            if w.voltage_v[last] < w.voltage_v[low] {
                low = last;
            }
            if w.voltage_v[last] > w.voltage_v[high] {
                high = last;
            }
        }
        let mut four = [first, low, high, last];
        four.sort_unstable();
        for (i, &index) in four.iter().enumerate() {
            if i == 0 || index != four[i - 1] {
                kept.push(index);
            }
        }
        first = last + 1;
    }
    w.time_s = kept.iter().map(|&i| w.time_s[i]).collect();
    w.voltage_v = kept.iter().map(|&i| w.voltage_v[i]).collect();
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thinning_keeps_the_extremes_and_the_ends() {
        let mut recorder = Recorder::new(&[0], 40);
        for i in 0..10_000 {
            let spike = if i == 6_543 { -7.0 } else { 0.0 };
            recorder.sample(f64::from(i) * 1e-3, &[f64::from(i % 10) + spike * 3.0]);
        }
        let w = recorder.finish().remove(0);
        assert!(w.time_s.len() <= 40, "{} points", w.time_s.len());
        assert_eq!(w.time_s[0], 0.0);
        assert_eq!(*w.time_s.last().unwrap(), 9.999);
        assert_eq!(w.voltage_v.iter().copied().fold(f64::MAX, f64::min), 3.0 - 21.0);
        assert_eq!(w.voltage_v.iter().copied().fold(f64::MIN, f64::max), 9.0);
        assert!(w.time_s.is_sorted());
    }
}
