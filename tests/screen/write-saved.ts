import { liveKinds } from './kinds.ts';
import { save } from './saved.ts';

save(await liveKinds());
