use std::collections::BTreeMap;
use std::num::NonZeroU32;

use krilla::configure::{Configuration, Validator};
use krilla::destination::XyzDestination;
use krilla::geom::{Point, Transform};
use krilla::metadata::Metadata;
use krilla::outline::{Outline as Bookmarks, OutlineNode};
use krilla::page::{NumberingStyle, PageLabel, PageSettings};
use krilla::surface::Surface;
use krilla::tagging::{ArtifactType, ContentTag, Identifier, SpanTag};
use krilla::text::Font;
use krilla::{Document as File, SerializeSettings};

use super::brush::{draw_picture, draw_shape, draw_words, push_frame};
use super::face::{BOLD, Face, Faces, REGULAR};
use super::foot::Foot;
use super::line::Run;
use super::pages::Placed;
use super::paper::Format;
use super::strip::{Kind, Mark, What};
use super::tags::{NodeId, Role, Tree};
use super::{Missing, Paper, Pdf, PdfError};

/// Both faces as the file holds them.
pub(super) struct Fonts {
    regular: Font,
    bold: Font,
}

impl Fonts {
    fn new() -> Result<Self, PdfError> {
        let font = |bytes: &'static [u8]| {
            let font = Font::new(bytes.into(), 0);
            font.ok_or_else(|| PdfError::Face("it is no font".to_owned()))
        };
        Ok(Self {
            regular: font(REGULAR)?,
            bold: font(BOLD)?,
        })
    }

    /// The face in the file.
    pub(super) fn of(&self, face: Face) -> Font {
        match face {
            Face::Regular => self.regular.clone(),
            Face::Bold => self.bold.clone(),
        }
    }
}

/// Writes pages into a file.
pub(super) struct Press {
    file: File,
    on: Format,
    fonts: Fonts,
    pages: usize,
    drawn: Vec<(NodeId, Identifier)>,
    missing: BTreeMap<char, usize>,
    bookmarks: Vec<OutlineNode>,
}

impl Press {
    /// An empty file; what breaks the rules of `validator` is refused at its end.
    ///
    /// *Errors:* [`PdfError::Face`].
    pub(super) fn new(paper: Paper, validator: Validator) -> Result<Self, PdfError> {
        let settings = SerializeSettings {
            configuration: Configuration::new_with_validator(validator),
            enable_tagging: true,
            ..SerializeSettings::default()
        };
        Ok(Self {
            file: File::new_with(settings),
            on: Format::new(paper, 1.0),
            fonts: Fonts::new()?,
            pages: 0,
            drawn: Vec::new(),
            missing: BTreeMap::new(),
            bookmarks: Vec::new(),
        })
    }

    /// Begins a document on the next page, with a bookmark.
    pub(super) fn begin(&mut self, title: &str, on: Format) {
        self.on = on;
        let to = XyzDestination::new(self.pages, Point::from_xy(0.0, 0.0));
        self.bookmarks.push(OutlineNode::new(title.to_owned(), to));
    }

    /// Adds a page of the document that was begun last.
    pub(super) fn page(
        &mut self,
        faces: &mut Faces,
        tree: &Tree,
        page: &[Placed],
        foot: &Foot<'_>,
    ) {
        self.mark_headings(tree, page);
        let margin = self.on.margin();
        let mut marks: Vec<Mark> = Vec::new();
        for Placed { top, strip } in page {
            marks.extend(strip.marks.iter().cloned().map(|mark| Mark {
                x: mark.x + margin,
                y: mark.y + margin + top,
                ..mark
            }));
        }
        self.count_missing(faces, &marks);
        // What only decorates lies below, the rest is drawn in the order in which it is read.
        marks.sort_by_key(|mark| mark.node);
        let feet = foot.marks(faces, self.on);
        self.pages += 1;
        let label = PageLabel::new(
            Some(NumberingStyle::Arabic),
            None,
            NonZeroU32::new(foot.number),
        );
        let (width, height) = self.on.size();
        let Some(settings) = PageSettings::from_wh(width, height) else {
            return;
        };
        let mut page = self.file.start_page_with(settings.with_page_label(label));
        let mut surface = page.surface();
        let fonts = &self.fonts;
        let scale = self.on.scale;
        surface.push_transform(&Transform::from_scale(scale, scale));
        let (below, read): (Vec<&Mark>, Vec<&Mark>) =
            marks.iter().partition(|mark| mark.node.is_none());
        artifact(&mut surface, fonts, ArtifactType::Other, below);
        for mark in read {
            let tag = match mark.what {
                What::Words { .. } => ContentTag::Span(SpanTag::empty()),
                What::Shape(_) | What::Figure(_) | What::Cut { .. } | What::Picture { .. } => {
                    ContentTag::Other
                }
            };
            let drawn = surface.start_tagged(tag);
            draw(&mut surface, fonts, mark);
            surface.end_tagged();
            self.drawn.extend(mark.node.map(|node| (node, drawn)));
        }
        artifact(&mut surface, fonts, ArtifactType::Footer, &feet);
        surface.pop();
    }

    /// The whole file.
    ///
    /// *Errors:* [`PdfError`] where the writer refuses it.
    pub(super) fn finish(
        mut self,
        tree: Tree,
        title: &str,
        language: &str,
    ) -> Result<Pdf, PdfError> {
        let metadata = Metadata::new()
            .title(title.to_owned())
            .creator("Evenshod".to_owned())
            .language(language.to_owned());
        self.file.set_metadata(metadata);
        let mut bookmarks = Bookmarks::new();
        for bookmark in self.bookmarks {
            bookmarks.push_child(bookmark);
        }
        self.file.set_outline(bookmarks);
        self.file.set_tag_tree(tree.tags(self.drawn, language));
        let missing = self.missing.into_iter();
        let missing = missing.map(|(character, count)| Missing { character, count });
        Ok(Pdf {
            bytes: self.file.finish()?,
            pages: self.pages,
            missing: missing.collect(),
        })
    }

    /// Bookmarks for the headings of level 2 below that of their document.
    fn mark_headings(&mut self, tree: &Tree, page: &[Placed]) {
        let (margin, scale) = (self.on.margin(), self.on.scale);
        let headings = page
            .iter()
            .filter(|placed| placed.strip.kind == Kind::Heading);
        let mut last = None;
        for Placed { top, strip } in headings {
            let node = strip.marks.iter().find_map(|mark| mark.node);
            if node == last {
                continue;
            }
            last = node;
            let role = node.and_then(|node| tree.role(node));
            if let Some(Role::Heading { level: 2, title }) = role {
                let to =
                    XyzDestination::new(self.pages, Point::from_xy(0.0, scale * (margin + top)));
                let bookmark = OutlineNode::new(title.clone(), to);
                if let Some(document) = self.bookmarks.last_mut() {
                    document.push_child(bookmark);
                }
            }
        }
    }

    fn count_missing(&mut self, faces: &mut Faces, marks: &[Mark]) {
        for mark in marks.iter().filter(|mark| mark.node.is_some()) {
            match &mark.what {
                What::Words { run, .. } => self.count_in(faces, run),
                What::Figure(inside) | What::Cut { inside, .. } => {
                    for mark in inside {
                        if let What::Words { run, .. } = &mark.what {
                            self.count_in(faces, run);
                        }
                    }
                }
                What::Shape(_) | What::Picture { .. } => {}
            }
        }
    }

    fn count_in(&mut self, faces: &mut Faces, run: &Run) {
        for cluster in run.glyphs.chunk_by(|one, next| one.start == next.start) {
            let is_whole = cluster.iter().all(|glyph| !glyph.is_box);
            let Some(first) = cluster.first().filter(|_| !is_whole) else {
                continue;
            };
            let text = run.text.get(first.start..first.end).unwrap_or_default();
            for lacked in faces.lacks(text) {
                *self.missing.entry(lacked).or_default() += 1;
            }
        }
    }
}

fn artifact<'a>(
    surface: &mut Surface<'_>,
    fonts: &Fonts,
    kind: ArtifactType,
    marks: impl IntoIterator<Item = &'a Mark>,
) {
    surface.start_tagged(ContentTag::Artifact(kind));
    for mark in marks {
        draw(surface, fonts, mark);
    }
    surface.end_tagged();
}

fn draw(surface: &mut Surface<'_>, fonts: &Fonts, mark: &Mark) {
    match &mark.what {
        What::Words { run, has_halo } => {
            let at = Point::from_xy(mark.x, mark.y);
            draw_words(surface, fonts, at, run, *has_halo);
        }
        What::Shape(outline) => {
            surface.push_transform(&Transform::from_translate(mark.x, mark.y));
            draw_shape(surface, outline);
            surface.pop();
        }
        What::Picture { bytes, size } => {
            surface.push_transform(&Transform::from_translate(mark.x, mark.y));
            draw_picture(surface, bytes, *size);
            surface.pop();
        }
        What::Cut { inside, size } => {
            surface.push_transform(&Transform::from_translate(mark.x, mark.y));
            let is_cut = push_frame(surface, *size);
            for mark in inside {
                draw(surface, fonts, mark);
            }
            if is_cut {
                surface.pop();
            }
            surface.pop();
        }
        What::Figure(inside) => {
            surface.push_transform(&Transform::from_translate(mark.x, mark.y));
            for mark in inside {
                draw(surface, fonts, mark);
            }
            surface.pop();
        }
    }
}
