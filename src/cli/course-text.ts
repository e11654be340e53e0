import { parseCourse } from '../geodesy/course/course-file.js';
import { type Course, straightCourse } from '../geodesy/index.js';
import { inputText } from '../host/input-text.js';
import { UserError } from '../units/user-error.js';

/** A course as text, which may go to a worker. */
export interface CourseText {
  readonly kind: 'file' | 'straight';
  /** The course file's name. */
  readonly name: string;
  readonly text: string;
  /** A file of its own with the line that the course follows. */
  readonly centreline: { readonly name: string; readonly text: string } | null;
}

/** The options that name a course. */
export interface CourseAsked {
  readonly course: string | null;
  readonly straight: string | null;
  readonly centreline: string | null;
}

/**
 * The course that was asked for, as text.
 * @throws UserError where none or two were asked for, or the file cannot be read
 */
export const courseText = async (asked: CourseAsked): Promise<CourseText> => {
  if (asked.course !== null && asked.straight !== null)
    throw new UserError('--course and --straight both name a course: give one of them');
  if (asked.centreline !== null && asked.course === null)
    throw new UserError('--centreline goes with --course, which gives the lines across the water');
  if (asked.straight !== null)
    return { kind: 'straight', name: asked.straight, text: asked.straight, centreline: null };
  if (asked.course === null)
    throw new UserError('no course: give --course FILE, or --straight LAT,LON:LAT,LON for a straight one');
  return {
    kind: 'file',
    name: asked.course,
    text: await inputText(asked.course, 'course file'),
    centreline:
      asked.centreline === null
        ? null
        : { name: asked.centreline, text: await inputText(asked.centreline, 'centreline') },
  };
};

/**
 * A course from its text.
 * @throws UserError that says what is wrong with it
 */
export const courseOfText = ({ kind, name, text, centreline }: CourseText): Course =>
  kind === 'file' ? parseCourse(text, name, centreline) : straightCourse(text);

/**
 * The course that was asked for, found sound, as text; null where none was.
 * @throws UserError that says what is wrong with it
 */
export const checkedCourse = async (asked: CourseAsked): Promise<CourseText | null> => {
  if (asked.course === null && asked.straight === null && asked.centreline === null) return null;
  const text = await courseText(asked);
  courseOfText(text);
  return text;
};
