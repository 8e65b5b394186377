//! Objects into a file: streams as they are, everything else in compressed object streams with a cross-reference
//! stream (ISO 32000-1, 7.5.7 and 7.5.8).

use flate2::Compression;
use flate2::write::ZlibEncoder;
use std::fmt::Write as _;
use std::io::Write as _;

/// The number of an object.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Reference(u32);

impl std::fmt::Display for Reference {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{} 0 R", self.0)
    }
}

/// Objects of one object stream.
const IN_STREAM: usize = 200;

/// Where an object is, as the cross-reference says it.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Place {
    Nowhere,
    At(usize),
    Within(u32, usize),
}

/// A file that is being written.
pub(crate) struct File {
    bytes: Vec<u8>,
    places: Vec<Place>,
    /// Objects that wait for the next object stream: numbers and where each begins in `text`.
    waiting: Vec<(u32, usize)>,
    text: String,
}

impl File {
    /// An empty file.
    pub(crate) fn new() -> File {
        // Four bytes above 127 tell programs that the file is not text (7.5.2).
        let bytes = b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n".to_vec();
        File { bytes, places: vec![Place::Nowhere], waiting: Vec::new(), text: String::new() }
    }

    /// A number for an object that is written later.
    pub(crate) fn reserve(&mut self) -> Reference {
        self.places.push(Place::Nowhere);
        Reference(self.places.len() as u32 - 1)
    }

    /// Writes an object that is no stream.
    pub(crate) fn put(&mut self, reference: Reference, body: &str) {
        self.waiting.push((reference.0, self.text.len()));
        self.text.push_str(body);
        self.text.push('\n');
        if self.waiting.len() == IN_STREAM {
            self.flush();
        }
    }

    /// Writes an object that is no stream under a new number.
    pub(crate) fn add(&mut self, body: &str) -> Reference {
        let reference = self.reserve();
        self.put(reference, body);
        reference
    }

    /// Writes a stream; `entries` of its dictionary besides length and filter.
    pub(crate) fn stream(&mut self, reference: Reference, entries: &str, data: &[u8]) {
        self.raw_stream(reference, &format!("{entries}/Filter/FlateDecode"), &deflated(data));
    }

    /// Writes a stream that anybody can read without unpacking it.
    pub(crate) fn plain_stream(&mut self, reference: Reference, entries: &str, data: &[u8]) {
        self.raw_stream(reference, entries, data);
    }

    fn raw_stream(&mut self, reference: Reference, entries: &str, data: &[u8]) {
        self.places[reference.0 as usize] = Place::At(self.bytes.len());
        let head = format!("{} 0 obj\n<<{entries}/Length {}>>\nstream\n", reference.0, data.len());
        self.bytes.extend_from_slice(head.as_bytes());
        self.bytes.extend_from_slice(data);
        // After data that ends in a carriage return, a line feed alone would be read as one end of line with it.
        self.bytes.extend_from_slice(b"\r\nendstream\nendobj\n");
    }

    fn flush(&mut self) {
        if self.waiting.is_empty() {
            return;
        }
        let stream = self.reserve();
        let mut head = String::new();
        for (index, (number, at)) in self.waiting.iter().enumerate() {
            let _ = write!(head, "{number} {at} ");
            self.places[*number as usize] = Place::Within(stream.0, index);
        }
        let entries = format!("/Type/ObjStm/N {}/First {}", self.waiting.len(), head.len());
        head.push_str(&self.text);
        self.waiting.clear();
        self.text.clear();
        self.stream(stream, &entries, head.as_bytes());
    }

    /// The bytes; `id` are 16 bytes that name the content.
    pub(crate) fn finish(mut self, root: Reference, information: Reference, id: &[u8; 16]) -> Vec<u8> {
        self.flush();
        let table = self.reserve();
        let start = self.bytes.len();
        self.places[table.0 as usize] = Place::At(start);
        let mut rows = Vec::with_capacity(self.places.len() * 7);
        for place in &self.places {
            let (kind, offset, index) = match *place {
                Place::Nowhere => (0_u8, 0, 0),
                Place::At(offset) => (1, offset as u32, 0),
                Place::Within(stream, index) => (2, stream, index as u16),
            };
            rows.push(kind);
            rows.extend_from_slice(&offset.to_be_bytes());
            rows.extend_from_slice(&index.to_be_bytes());
        }
        let id = hexadecimal(id);
        let entries = format!(
            "/Type/XRef/Size {}/W[1 4 2]/Root {root}/Info {information}/ID[<{id}><{id}>]",
            self.places.len()
        );
        self.stream(table, &entries, &rows);
        self.bytes.extend_from_slice(format!("startxref\n{start}\n%%EOF\n").as_bytes());
        self.bytes
    }

    /// What has been written so far.
    pub(crate) fn written(&self) -> &[u8] {
        &self.bytes
    }
}

fn deflated(data: &[u8]) -> Vec<u8> {
    let mut encoder = ZlibEncoder::new(Vec::with_capacity(data.len() / 3 + 64), Compression::new(6));
    // Writing into memory cannot fail.
    let _ = encoder.write_all(data);
    encoder.finish().unwrap_or_default()
}

/// Bytes in hexadecimal.
pub(crate) fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().fold(String::with_capacity(2 * bytes.len()), |mut text, byte| {
        let _ = write!(text, "{byte:02x}");
        text
    })
}

/// A text string (7.9.2.2): as it is where it is plain, otherwise in UTF-16.
pub(crate) fn string(text: &str) -> String {
    let is_plain = text.bytes().all(|byte| (b' '..=b'~').contains(&byte) && !b"()\\".contains(&byte));
    if is_plain {
        return format!("({text})");
    }
    let mut out = String::with_capacity(6 + 4 * text.len());
    out.push_str("<feff");
    for unit in text.encode_utf16() {
        let _ = write!(out, "{unit:04x}");
    }
    out.push('>');
    out
}

/// A number with at most `decimals` decimals.
pub(crate) fn number(value: f64, decimals: usize) -> String {
    let mut text = format!("{value:.decimals$}");
    if text.contains('.') {
        text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
    }
    if text == "-0" { String::from("0") } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 32000-1, 7.9.2.2: UTF-16BE with a byte order mark.
    #[test]
    fn strings_are_plain_or_utf_16() {
        assert_eq!(string("A-12"), "(A-12)");
        assert_eq!(string("a(b"), "<feff006100280062>");
        assert_eq!(string("Ω"), "<feff03a9>");
        assert_eq!(string("🔑"), "<feffd83ddd11>");
    }

    #[test]
    fn numbers_are_short() {
        let numbers = [12.0, 0.5, -0.001, 1.005, 100.0].map(|value| number(value, 2));
        assert_eq!(numbers, ["12", "0.5", "0", "1", "100"]);
    }
}
