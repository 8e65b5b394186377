//! The colour profile that archival files name for their reds, greens and blues: sRGB (IEC 61966-2-1) as a matrix
//! profile after ICC.1:2001-04 (version 2), made here from the published primaries and curve.

/// Primaries and white of sRGB, adapted to D50 as profiles want it (ICC.1 annex; from memory, the values that every
/// common sRGB profile carries).
const RED: [f64; 3] = [0.436_066, 0.222_488, 0.013_916];
const GREEN: [f64; 3] = [0.385_147, 0.716_873, 0.097_076];
const BLUE: [f64; 3] = [0.143_066, 0.060_608, 0.714_096];
const WHITE_D50: [f64; 3] = [0.964_203, 1.0, 0.824_905];

/// The bytes of the profile.
pub(crate) fn srgb() -> Vec<u8> {
    let mut tags: Vec<([u8; 4], Vec<u8>)> = vec![
        (*b"desc", description("sRGB IEC61966-2.1")),
        (*b"cprt", text("No copyright, use freely")),
        (*b"wtpt", xyz(WHITE_D50)),
        (*b"rXYZ", xyz(RED)),
        (*b"gXYZ", xyz(GREEN)),
        (*b"bXYZ", xyz(BLUE)),
        (*b"rTRC", curve()),
    ];
    for (_, bytes) in &mut tags {
        bytes.resize(bytes.len().next_multiple_of(4), 0);
    }
    let mut rows: Vec<([u8; 4], usize, usize)> = Vec::new();
    // The three curves are one.
    let count = tags.len() + 2;
    let mut at = 128 + 4 + 12 * count;
    for (tag, bytes) in &tags {
        rows.push((*tag, at, bytes.len()));
        at += bytes.len();
    }
    let (_, curve_at, curve_length) = rows[rows.len() - 1];
    rows.push((*b"gTRC", curve_at, curve_length));
    rows.push((*b"bTRC", curve_at, curve_length));

    let mut profile = Vec::with_capacity(at);
    let mut put = |bytes: &[u8]| profile.extend_from_slice(bytes);
    put(&(at as u32).to_be_bytes());
    put(&[0; 4]);
    put(&[2, 0x10, 0, 0]);
    put(b"mntrRGB XYZ ");
    // A fixed date: 2000-01-01.
    for value in [2000_u16, 1, 1, 0, 0, 0] {
        put(&value.to_be_bytes());
    }
    put(b"acsp");
    put(&[0; 28]);
    for value in WHITE_D50 {
        put(&fixed(value));
    }
    put(&[0; 48]);
    put(&(count as u32).to_be_bytes());
    for (tag, start, length) in rows {
        put(&tag);
        put(&(start as u32).to_be_bytes());
        put(&(length as u32).to_be_bytes());
    }
    for (_, bytes) in &tags {
        put(bytes);
    }
    profile
}

/// A number with 16 bits before and after the point.
fn fixed(value: f64) -> [u8; 4] {
    ((value * 65536.0).round() as i32).to_be_bytes()
}

fn xyz(values: [f64; 3]) -> Vec<u8> {
    let mut bytes = b"XYZ \0\0\0\0".to_vec();
    values.iter().for_each(|value| bytes.extend_from_slice(&fixed(*value)));
    bytes
}

fn text(words: &str) -> Vec<u8> {
    let mut bytes = b"text\0\0\0\0".to_vec();
    bytes.extend_from_slice(words.as_bytes());
    bytes.push(0);
    bytes
}

fn description(words: &str) -> Vec<u8> {
    let mut bytes = b"desc\0\0\0\0".to_vec();
    bytes.extend_from_slice(&(words.len() as u32 + 1).to_be_bytes());
    bytes.extend_from_slice(words.as_bytes());
    bytes.push(0);
    // No Unicode and no ScriptCode description: two codes and counts, and 67 empty bytes.
    bytes.resize(bytes.len() + 8 + 3 + 67, 0);
    bytes
}

/// The curve of sRGB at 1,024 places.
fn curve() -> Vec<u8> {
    const PLACES: u32 = 1024;
    let mut bytes = b"curv\0\0\0\0".to_vec();
    bytes.extend_from_slice(&PLACES.to_be_bytes());
    for place in 0..PLACES {
        let value = f64::from(place) / f64::from(PLACES - 1);
        // IEC 61966-2-1.
        let linear = if value <= 0.040_45 { value / 12.92 } else { libm::pow((value + 0.055) / 1.055, 2.4) };
        bytes.extend_from_slice(&((linear * 65535.0).round() as u16).to_be_bytes());
    }
    bytes
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_profile_is_as_long_as_it_says_and_its_primaries_make_white() {
        let profile = srgb();
        assert_eq!(u32::from_be_bytes(profile[..4].try_into().unwrap()) as usize, profile.len());
        for axis in 0..3 {
            // ICC.1: red, green and blue together are the white of D50.
            assert!((RED[axis] + GREEN[axis] + BLUE[axis] - WHITE_D50[axis]).abs() < 2e-4, "{axis}");
        }
    }
}
