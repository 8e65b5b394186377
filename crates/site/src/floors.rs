//! The order of floors by their usual names.

/// The level that a floor's name tells, the ground being 0; `None` where it tells none.
fn level(name: &str) -> Option<i32> {
    let name = name.trim().to_lowercase();
    match &*name {
        "g" | "gf" | "ground" | "eg" | "erdgeschoss" => return Some(0),
        "b" | "basement" | "ug" | "kg" | "keller" => return Some(-1),
        _ => {}
    }
    if let Ok(number) = name.parse::<i32>() {
        return Some(number);
    }
    // "1. OG", "OG 1", "2.UG", "3rd floor".
    let digits: String = name.chars().filter(char::is_ascii_digit).collect();
    let number: i32 = digits.parse().ok()?;
    let rest: String = name.chars().filter(|sign| sign.is_alphabetic()).collect();
    match &*rest {
        "og" | "st" | "nd" | "rd" | "th" | "stfloor" | "ndfloor" | "rdfloor" | "thfloor" | "floor" => {
            Some(number)
        }
        "ug" | "b" | "basement" => Some(-number),
        _ => None,
    }
}

/// Whether floors, which are written from the lowest up, seem to be written from the top down: at least two tell a level, and each that does
/// tells a lower one than that before it.
pub fn are_upside_down<'a>(names: impl IntoIterator<Item = &'a str>) -> bool {
    let levels: Vec<i32> = names.into_iter().filter_map(level).collect();
    levels.len() > 1 && levels.windows(2).all(|pair| pair[1] < pair[0])
}

#[cfg(test)]
mod tests {
    use super::*;

    /// As houses name them (common practice, no source): a list from the top down is told, one from the lowest up and one of names are not.
    #[test]
    fn a_list_from_the_top_down_is_told() {
        for down in [
            &["3", "2", "1", "G"][..],
            &["2.OG", "1. OG", "EG", "UG"],
            &["2nd floor", "1st floor", "Ground"],
            &["1", "0"],
        ] {
            assert!(are_upside_down(down.iter().copied()), "{down:?}");
            assert!(!are_upside_down(down.iter().rev().copied()), "{down:?}");
        }
        for other in [&["G"][..], &["low", "high"], &["G", "2", "1"], &["1", "attic"], &[]] {
            assert!(!are_upside_down(other.iter().copied()), "{other:?}");
        }
    }
}
