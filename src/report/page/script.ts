/**
 * The page's own script: where a reader points at a picture, it shows the values nearest to that place. All that it
 * shows stands in the page already; without it nothing is missing but this.
 */
export const PAGE_SCRIPT = `'use strict';
for (const picture of document.querySelectorAll('.picture')) {
  const data = picture.querySelector('script');
  if (data === null) continue;
  const pointers = JSON.parse(data.textContent);
  const [tip, hair] = [picture.querySelector('.tip'), picture.querySelector('.hair')];
  const hide = () => { tip.hidden = hair.hidden = true; };
  const nearest = ({ x, y }, atX, atY, perX, perY) => {
    let [best, least] = [-1, Infinity];
    for (let i = 0; i < x.length; i++) {
      const far = Math.hypot((x[i] - atX) * perX, y === undefined ? 0 : (y[i] - atY) * perY);
      if (far < least) [best, least] = [i, far];
    }
    return best;
  };
  const show = (event) => {
    for (const ground of picture.querySelectorAll('.ground[data-pointer]')) {
      const box = ground.getBoundingClientRect();
      if (event.clientX < box.left || event.clientX > box.right) continue;
      if (event.clientY < box.top || event.clientY > box.bottom) continue;
      const pointer = pointers[ground.dataset.pointer];
      const [x0, x1] = ground.dataset.x.split(' ').map(Number);
      const [y0, y1] = ground.dataset.y.split(' ').map(Number);
      const [perX, perY] = [box.width / (x1 - x0), box.height / (y1 - y0)];
      const atX = x0 + (event.clientX - box.left) / perX;
      const i = nearest(pointer, atX, y1 - (event.clientY - box.top) / perY, perX, perY);
      if (i < 0) continue;
      const frame = picture.getBoundingClientRect();
      const left = box.left + (pointer.x[i] - x0) * perX - frame.left;
      const up = pointer.y === undefined ? null : box.bottom - (pointer.y[i] - y0) * perY - frame.top;
      hair.className = up === null ? 'hair' : 'hair spot';
      hair.style.left = (up === null ? left : left - 6) + 'px';
      hair.style.top = (up === null ? box.top - frame.top : up - 6) + 'px';
      hair.style.height = up === null ? box.height + 'px' : '';
      tip.textContent = Object.entries(pointer.shown).map(([name, of]) => name + ' ' + of[i]).join('\\n');
      tip.hidden = hair.hidden = false;
      const room = frame.width - tip.offsetWidth;
      tip.style.left = Math.max(0, Math.min(left + 14, left + 14 > room ? left - 14 - tip.offsetWidth : room)) + 'px';
      tip.style.top = Math.max(0, box.top - frame.top + 6) + 'px';
      return;
    }
    hide();
  };
  picture.addEventListener('pointermove', show);
  picture.addEventListener('pointerdown', show);
  picture.addEventListener('pointerleave', hide);
}
`;
