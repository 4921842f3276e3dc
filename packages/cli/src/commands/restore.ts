/** `restore`: what a backup holds becomes the data folder. */
import { count } from './backup.ts';
import type { Command } from './command.ts';
import { DATA, folderFor, server, told } from './told.ts';

export const restore: Command = {
  help: {
    name: 'restore',
    operands: 'FILE',
    summary: 'makes the data folder from a backup; the folder of before is kept beside it',
    teaches: [
      'The backup is checked as a whole before anything is moved. To add the builds of an archive to those that are here instead, open it in the app.',
    ],
    options: [DATA],
    examples: [['loomwright restore builds.tar', 'on a new machine, or after a loss']],
  },
  async run(args, { host }) {
    const [file = ''] = args.operands;
    try {
      const folder = await folderFor(args, host);
      const { taken, kept } = await (await server()).restore(file, folder, () => new Date().toISOString());
      host.out(
        `${folder}\n${count(taken.builds.added, 'build')}, ${count(taken.items.added, 'item')} on the shelf, ${count(taken.photos.added, 'photo')}; checked and in place.\n`,
      );
      if (kept !== null) host.out(`What was there before is kept in ${kept}\n`);
      return 0;
    } catch (error) {
      return told(error, host);
    }
  },
};
