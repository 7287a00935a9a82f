use super::face::{Face, Faces, Glyph};
use super::ink::Ink;
use super::words::{Piece, SLACK, measure, paragraphs, plain, words};

/// How a text is set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Style {
    /// Its face.
    pub(super) face: Face,
    /// Its size in points.
    pub(super) size: f32,
    /// Its colour.
    pub(super) ink: Ink,
}

/// A text in one style, a part of a paragraph.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Span {
    /// What it says.
    pub(super) text: String,
    /// How it is set.
    pub(super) style: Style,
}

impl Span {
    /// A text in this style.
    pub(super) fn new(text: &str, style: Style) -> Self {
        Self {
            text: plain(text),
            style,
        }
    }
}

/// What of a span stands in one line.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Run {
    /// Which span it is of.
    pub(super) span: usize,
    /// How it is set.
    pub(super) style: Style,
    /// What it says, spaces at its end included.
    pub(super) text: String,
    /// Its glyphs, which name bytes of its text.
    pub(super) glyphs: Vec<Glyph>,
}

impl Run {
    /// A text of one style in one line.
    pub(super) fn of(faces: &mut Faces, text: &str, style: Style) -> Self {
        let text = plain(text).replace('\n', " ");
        Self {
            span: 0,
            style,
            glyphs: faces.shape(style.face, &text).to_vec(),
            text,
        }
    }

    /// How wide it is, in points.
    pub(super) fn width(&self) -> f32 {
        let advances = self.glyphs.iter().map(|glyph| glyph.advance);
        advances.sum::<f32>() * self.style.size
    }
}

/// A line of text.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Line {
    /// Its parts from left to right.
    pub(super) runs: Vec<Run>,
    /// How wide it is without the spaces at its end, in points.
    pub(super) width: f32,
}

/// The lines of a paragraph, none wider than `room` points unless one letter is. They
/// break as UAX 14 allows, a word that is too wide between letters. A line end that was
/// typed ends the line. At least one line, which may be empty.
pub(super) fn lines(faces: &mut Faces, spans: &[Span], room: f32) -> Vec<Line> {
    let mut all = Vec::new();
    let paragraphs = paragraphs(spans);
    let last = paragraphs.len().saturating_sub(1);
    for (at, paragraph) in paragraphs.iter().enumerate() {
        let mut filler = Filler {
            room,
            ..Filler::default()
        };
        for word in words(paragraph) {
            filler.add(faces, &word);
        }
        if at < last {
            filler.space(faces);
        }
        filler.end();
        all.append(&mut filler.done);
    }
    all
}

/// Fills line after line.
#[derive(Default)]
struct Filler {
    room: f32,
    done: Vec<Line>,
    line: Line,
    used: f32,
}

impl Filler {
    fn add(&mut self, faces: &mut Faces, word: &[Piece<'_>]) {
        let (visible, full) = measure(faces, word);
        if self.used > 0.0 && self.used + visible > self.room + SLACK {
            self.end();
        }
        if visible > self.room + SLACK {
            self.add_broken(faces, word);
            return;
        }
        self.line.width = self.used + visible;
        self.used += full;
        for piece in word {
            let glyphs = faces.shape(piece.style.face, piece.text);
            self.push(piece, piece.text, &glyphs, 0);
        }
    }

    /// Adds a word that no line holds, breaking it between letters.
    fn add_broken(&mut self, faces: &mut Faces, word: &[Piece<'_>]) {
        for piece in word {
            let glyphs = faces.shape(piece.style.face, piece.text);
            for cluster in glyphs.chunk_by(|one, next| one.start == next.start) {
                let advances = cluster.iter().map(|glyph| glyph.advance);
                let width = advances.sum::<f32>() * piece.style.size;
                let Some(range) = cluster.first().map(|first| first.start..first.end) else {
                    continue;
                };
                let start = range.start;
                let text = piece.text.get(range).unwrap_or_default();
                let is_space = text.trim().is_empty();
                if !is_space && self.used > 0.0 && self.used + width > self.room + SLACK {
                    self.end();
                }
                self.used += width;
                if !is_space {
                    self.line.width = self.used;
                }
                self.push(piece, text, cluster, start);
            }
        }
    }

    /// Adds glyphs that name bytes of the piece from `start` on.
    fn push(&mut self, piece: &Piece<'_>, text: &str, glyphs: &[Glyph], start: usize) {
        if !matches!(self.line.runs.last(), Some(run) if run.span == piece.span) {
            self.line.runs.push(Run {
                span: piece.span,
                style: piece.style,
                text: String::new(),
                glyphs: Vec::new(),
            });
        }
        if let Some(run) = self.line.runs.last_mut() {
            let shift = run.text.len();
            run.text.push_str(text);
            run.glyphs.extend(glyphs.iter().map(|glyph| Glyph {
                start: glyph.start - start + shift,
                end: glyph.end - start + shift,
                ..glyph.clone()
            }));
        }
    }

    /// A space at the end, so that who copies the text gets two words.
    fn space(&mut self, faces: &mut Faces) {
        let Some(run) = self.line.runs.last() else {
            return;
        };
        let piece = Piece {
            span: run.span,
            style: run.style,
            text: " ",
        };
        let glyphs = faces.shape(piece.style.face, piece.text);
        self.push(&piece, piece.text, &glyphs, 0);
    }

    fn end(&mut self) {
        self.done.push(std::mem::take(&mut self.line));
        self.used = 0.0;
    }
}
